const WORKS: readonly { href: string; name: string }[] = [
  { href: '/plaster/slake', name: 'Slake scrap' },
  { href: '/plaster/decant', name: 'Draw water off' },
  { href: '/plaster/slurry', name: 'Read a slurry' },
  { href: '/plaster/pour', name: 'Pour on plaster' },
  { href: '/plaster/wedge', name: 'Wedge' },
  { href: '/plaster/rewet', name: 'Wet hard clay' },
]

/** What is done with scrap on its way back, in the order in which it is done. */
export function Works() {
  return (
    <nav class="works" aria-label="Reclaim">
      {WORKS.map(({ href, name }) => (
        <a class="button" href={href} data-offline>
          {name}
        </a>
      ))}
    </nav>
  )
}
