import type { MaterialKind } from '../../../shared/material.ts'
import { MATERIAL_KINDS } from '../../../shared/material.ts'
import { Ways } from '../first-needed.tsx'
import { trailHref } from '../trail-href.ts'
import type { Voice } from '../voice.ts'
import { amountWords, type MaterialAtHand, type OnShelf } from './here.ts'

const HEADINGS: Readonly<Record<MaterialKind, string>> = {
  ingredient: 'Powders',
  glaze: 'Glazes, dry on the shelf',
  packaging: 'Packaging',
  kiln_furniture: 'For the kiln',
  fuel: 'Gas',
}

/** What lies on the shelf beside clay, kind by kind, with what is to be ordered. */
export function ShelfPage({ rows, voice }: { rows: readonly OnShelf[]; voice: Voice }) {
  const shown = rows.filter(({ kind, holdingId }) => kind !== 'glaze' || holdingId !== null)
  return (
    <>
      <h1>Materials</h1>
      <p>Powders, boxes, kiln shelves and gas on the shelf, by the books.</p>
      <p class="row">
        <a class="button" href="/books/materials-in">
          Materials came in
        </a>
        <a class="button" href="/books/opening/material">
          It was here already
        </a>
      </p>
      {shown.length === 0 ? <p>None entered yet.</p> : null}
      {MATERIAL_KINDS.map((kind) => {
        const some = shown.filter((row) => row.kind === kind)
        if (some.length === 0) return null
        return (
          <section>
            <h2>{HEADINGS[kind]}</h2>
            <ul class="targets">
              {some.map((row) => (
                <li>
                  <a class="target" href={`/books/materials/${row.materialId}`}>
                    <strong>{row.name}</strong>
                    <span>
                      {amountWords(row, voice)}
                      {row.cost === '0' ? '' : `, ${voice.money(row.cost)}`}
                      {row.isToReorder ? <strong class="reorder"> · time to order</strong> : null}
                    </span>
                  </a>
                </li>
              ))}
            </ul>
          </section>
        )
      })}
      <p>
        Glaze in buckets: <a href="/glaze">Glaze</a>.{' '}
        <a href="/books/things/materials">All materials in the catalogue</a>
      </p>
    </>
  )
}

/** One material on the shelf, and what can be done with it. */
export function MaterialPage({ shelf, voice }: MaterialAtHand & { voice: Voice }) {
  const { materialId, name, keptBy, kind, holdingId } = shelf
  const at = `/books/materials/${materialId}`
  const isCounted = keptBy === 'count'
  return (
    <>
      <h1>{name}</h1>
      <ShelfFigures shelf={shelf} voice={voice} />
      <Ways
        ways={[
          {
            href: `${at}/count`,
            name: isCounted ? 'Count it' : 'Weigh it',
            words: 'what is truly there',
          },
          {
            href: `${at}/use`,
            name: kind === 'kiln_furniture' ? 'Into the kiln' : 'It went otherwise',
            words: 'spoiled, thrown away, tested, given away',
          },
          { href: '/books/materials-in', name: 'More came in' },
          ...(kind === 'glaze'
            ? [{ href: `/glaze/recipe/${materialId}`, name: 'Its recipe' }]
            : []),
          {
            href: `/books/things/materials/${materialId}`,
            name: 'In the catalogue',
            words: 'data sheet, hazards, supplier, when to order',
          },
        ]}
      />
      {holdingId === null || shelf.trail === null ? null : (
        <p>
          <a href={trailHref(shelf.trail)}>How it came to that</a>
        </p>
      )}
    </>
  )
}

function ShelfFigures({ shelf, voice }: { shelf: OnShelf; voice: Voice }) {
  const { keptBy, reorderPoint, dryGrams, sure } = shelf
  const isCounted = keptBy === 'count'
  return (
    <dl class="figures">
      <div>
        <dt>On the shelf</dt>
        <dd>
          {amountWords(shelf, voice)}
          {isCounted ? null : (
            <small>{voice.massSure(dryGrams, sure.standardUncertainty)} dry</small>
          )}
        </dd>
      </div>
      <div>
        <dt>Cost</dt>
        <dd>{voice.money(shelf.cost)}</dd>
      </div>
      {reorderPoint === null ? null : (
        <div>
          <dt>Order at</dt>
          <dd>
            {isCounted ? reorderPoint : voice.mass(reorderPoint)}
            {shelf.isToReorder ? <small class="reorder">time to order</small> : null}
          </dd>
        </div>
      )}
    </dl>
  )
}
