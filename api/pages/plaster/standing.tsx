import type { SlabStanding } from '../../../shared/plaster-urgency.ts'

const STANDING_WORDS: Readonly<Record<SlabStanding, string>> = {
  too_dry: 'Too dry',
  ready: 'Ready to lift',
  ask_the_scale: 'Ask the scale',
  bat_is_tired: 'The bat is tired',
  to_turn: 'Turn it',
  drying: 'Drying',
}

/** A shape for each, so that no colour has to be told apart. Drawn in a square of 24. */
const SHAPES: Readonly<Record<SlabStanding, string>> = {
  too_dry: 'M12 2 23 21H1Z M12 8v6 M12 17v1.5',
  ready: 'M12 1.5a10.5 10.5 0 1 0 .001 0Z M6.5 12.5l4 4 7-9',
  ask_the_scale: 'M3 3h18v18H3Z M9 9.5a3 3 0 1 1 4.2 2.7q-1.2.6-1.2 2 M12 17v1.2',
  bat_is_tired: 'M2 12h19 M14 5l7 7-7 7',
  to_turn: 'M20 12a8 8 0 1 1-3-6.2 M17 1v5h-5',
  drying: 'M12 2q8 9 8 13a8 7.5 0 0 1-16 0q0-4 8-13Z',
}

/** How a slab stands: a shape and a word. */
export function Standing({ standing }: { standing: SlabStanding }) {
  return (
    <p class={`slab-standing ${standing.replaceAll('_', '-')}`}>
      <svg viewBox="0 0 24 24" aria-hidden="true" focusable="false">
        <path d={SHAPES[standing]} />
      </svg>
      <strong>{STANDING_WORDS[standing]}</strong>
    </p>
  )
}
