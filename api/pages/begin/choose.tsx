import type { StudioView } from '../../../db/catalogue-studios.ts'

/** The studios that keep their books here, each one touch. */
export function ChooseStudio({ studios }: { studios: readonly StudioView[] }) {
  return (
    <ul class="targets">
      {studios.map(({ studioId, name, currency, timeZone }) => (
        <li>
          <a class="target" href={`/?studio=${encodeURIComponent(studioId)}`}>
            <strong>{name}</strong>
            <span>
              {currency} · {timeZone}
            </span>
          </a>
        </li>
      ))}
    </ul>
  )
}
