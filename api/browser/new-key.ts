const BYTES = 16

/** A key that no other press has. Plain HTTP has no `randomUUID`, so it is made of random bytes. */
export function newKey(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(BYTES))
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('')
}
