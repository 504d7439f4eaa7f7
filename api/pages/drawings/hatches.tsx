import type { Child } from 'hono/jsx'

/** How a surface is filled so that it is told from others without colour. */
export type Hatch = 'clay' | 'fired' | 'back' | 'stock' | 'came' | 'gone' | 'unknown'

const PATTERNS: Readonly<Record<Hatch, { readonly size: number; readonly marks: Child }>> = {
  clay: { size: 6, marks: <></> },
  fired: { size: 5, marks: <circle class="mark-dot" cx="2.5" cy="2.5" r="1.1" /> },
  back: { size: 6, marks: <path class="mark-line" d="M-1,7 L7,-1 M-1,1 L1,-1 M5,7 L7,5" /> },
  stock: { size: 6, marks: <path class="mark-thin" d="M0,3 H6" /> },
  came: { size: 6, marks: <path class="mark-line" d="M3,0 V6" /> },
  gone: { size: 5, marks: <path class="mark-line" d="M0,0 L5,5 M5,0 L0,5" /> },
  unknown: { size: 6, marks: <></> },
}

/** The fills of a drawing; their colours are classes of the stylesheet. */
export function Hatches({ id }: { readonly id: string }) {
  return (
    <defs>
      {(Object.keys(PATTERNS) as Hatch[]).map((hatch) => (
        <pattern
          id={`${id}-${hatch}`}
          width={PATTERNS[hatch].size}
          height={PATTERNS[hatch].size}
          patternUnits="userSpaceOnUse"
        >
          <rect
            class={`ground ${hatch}`}
            width={PATTERNS[hatch].size}
            height={PATTERNS[hatch].size}
          />
          {PATTERNS[hatch].marks}
        </pattern>
      ))}
    </defs>
  )
}

/** What refers to a fill of the drawing with that id. */
export function hatchOf(id: string, hatch: Hatch): string {
  return `url(#${id}-${hatch})`
}
