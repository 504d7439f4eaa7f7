/** A page of ours that a form names to go to afterwards; nothing where it is anything else. */
export function localPath(text: string | undefined): string | undefined {
  if (text === undefined || !/^\/(?![/\\])[\w\-./?=&%~]*$/.test(text)) return undefined
  return text
}

/** The same page with one more word in its address. */
export function withQuery(path: string, name: string, value: string): string {
  return `${path}${path.includes('?') ? '&' : '?'}${name}=${encodeURIComponent(value)}`
}
