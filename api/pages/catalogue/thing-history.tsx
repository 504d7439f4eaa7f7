import type { CatalogueVersion } from '../../../db/catalogue.ts'
import type { Voice } from '../voice.ts'
import { inWords, type ThingField } from './thing-field.ts'

interface HistoryProps {
  readonly versions: readonly CatalogueVersion[]
  readonly fields: readonly ThingField[]
  readonly voice: Voice
}

interface Change {
  readonly label: string
  readonly now: string
  readonly before: string
}

/** What a thing was, and when that changed; the newest first. */
export function ThingHistory({ versions, fields, voice }: HistoryProps) {
  const told = versions.map((version, index) => ({
    version,
    changes: changesOf({ fields, voice, now: version, before: versions[index - 1] }),
  }))
  return (
    <section>
      <h2>What it was, and when</h2>
      <p class="hint">What was weighed before a change keeps the figures of its day.</p>
      <ol class="history">
        {told.toReversed().map(({ version, changes }) => (
          <li>
            <strong>{voice.moment(version.changedAt)}</strong>
            {version.versionNo === 1 ? ': entered' : null}
            <ul>
              {changes.map(({ label, now, before }) => (
                <li>
                  {label}: {now}
                  {version.versionNo === 1 ? '' : ` (was ${before})`}
                </li>
              ))}
            </ul>
          </li>
        ))}
      </ol>
    </section>
  )
}

function changesOf(compared: {
  fields: readonly ThingField[]
  voice: Voice
  now: CatalogueVersion
  before: CatalogueVersion | undefined
}): Change[] {
  const { fields, voice, now, before } = compared
  return fields.flatMap((field) => {
    const words = inWords(field, now.facts[field.name], voice)
    const wasWords = inWords(field, before?.facts[field.name], voice)
    if (words === wasWords) return []
    return [{ label: voice.words(field.label), now: words, before: wasWords }]
  })
}
