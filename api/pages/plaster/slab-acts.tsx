import type { SlabStanding } from '../../../shared/plaster-urgency.ts'
import type { Slab } from './slab-figures.tsx'

interface SlabActsProps {
  readonly slab: Slab
  readonly standing: SlabStanding
  /** Whether the slab's own page is offered too. */
  readonly hasOpen?: boolean | undefined
}

/** What can be done with a slab; what is advised stands out. */
export function SlabActs({ slab, standing, hasOpen }: SlabActsProps) {
  const own = `/plaster/${slab.lotId}`
  const acts = [
    {
      href: `/weigh/bat/${slab.batId}`,
      name: 'Weigh',
      isAdvised: standing === 'ask_the_scale' || standing === 'to_turn',
    },
    {
      href: `${own}/lift`,
      name: 'Lift',
      isAdvised: standing === 'ready' || standing === 'too_dry',
    },
    { href: `${own}/move`, name: 'Move', isAdvised: standing === 'bat_is_tired' },
  ]
  return (
    <p class="row slab-acts">
      {acts
        .toSorted((one, other) => Number(other.isAdvised) - Number(one.isAdvised))
        .map(({ href, name, isAdvised }) => (
          <a
            class={isAdvised ? 'button advised' : 'button'}
            href={href}
            aria-label={`${name}: slab on ${slab.batName}`}
            data-offline
          >
            {name}
          </a>
        ))}
      {hasOpen === true ? (
        <a class="button" href={own} aria-label={`Open: slab on ${slab.batName}`}>
          Open
        </a>
      ) : null}
    </p>
  )
}
