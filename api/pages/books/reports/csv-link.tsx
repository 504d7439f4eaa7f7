/** The address of a report of the API as a table. */
export function csvHref(
  path: string,
  filters: Readonly<Record<string, string | undefined>> = {},
): string {
  const said = Object.entries(filters).filter(
    (pair): pair is [string, string] => pair[1] !== undefined,
  )
  return `${path}?${new URLSearchParams([...said, ['format', 'csv']]).toString()}`
}

/** The same as a table for the laptop. */
export function CsvLink({ href }: { href: string }) {
  return (
    <p class="off-paper">
      <a class="button" href={href} download>
        As a table (CSV)
      </a>
    </p>
  )
}
