import { newRouter } from '../../../router.ts'
import { show } from '../../show.tsx'
import type { Voice } from '../../voice.ts'
import { lettersOf, wallSheet, WALL_STATES, type WallSheet } from './wall-sheet.ts'

const TITLE = 'The sheet for the wall'
const TO_THE_GRAM = 3

/** One printed page for the wall of the studio. */
export const wall = newRouter()

wall.get('/books/wall', async (c) => {
  const sheet = await wallSheet(c)
  const voice = c.get('voice')
  const letters = lettersOf(sheet)
  return show(
    c,
    { title: TITLE, here: 'books' },
    <>
      <div class="off-paper">
        <p>
          Print this page on A4 or Letter and hang it where you weigh.
          {letters === 'large'
            ? ''
            : ' There is much to print, so the letters are smaller than can be read from two metres.'}
        </p>
      </div>
      <article class={`wall letters-${letters}`}>
        <header>
          <h1>{voice.studio.name}</h1>
          <p>As known on {voice.day(voice.now)}</p>
        </header>
        <div class="wall-columns">
          <Forms sheet={sheet} voice={voice} />
          <Empties sheet={sheet} voice={voice} />
        </div>
        <Clays sheet={sheet} voice={voice} />
        <Dust sheet={sheet} />
      </article>
    </>,
  )
})

interface PartProps {
  readonly sheet: WallSheet
  readonly voice: Voice
}

function Forms({ sheet, voice }: PartProps) {
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Form</th>
          <th scope="col" class="number">
            Ball
          </th>
          <th scope="col" class="number">
            {voice.words('Turned off')}
          </th>
        </tr>
      </thead>
      <tbody>
        {sheet.forms.map(({ name, ballGrams, turnedOffFraction }) => (
          <tr>
            <th scope="row">{name}</th>
            <td class="number">{ballGrams === null ? '–' : voice.mass(ballGrams, TO_THE_GRAM)}</td>
            <td class="number">
              {turnedOffFraction === null ? '–' : voice.share(turnedOffFraction, 0)}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Empties({ sheet, voice }: PartProps) {
  const { vessels, bats } = sheet
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">Empty, or a bat dry</th>
          <th scope="col" class="number">
            Weighs
          </th>
        </tr>
      </thead>
      <tbody>
        {vessels.map(({ name, tareGrams }) => (
          <tr>
            <th scope="row">{name}</th>
            <td class="number">{voice.mass(tareGrams, TO_THE_GRAM)}</td>
          </tr>
        ))}
        {bats.map(({ name, dryGrams }) => (
          <tr>
            <th scope="row">{name}</th>
            <td class="number">{dryGrams === null ? '–' : voice.mass(dryGrams, TO_THE_GRAM)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

const STATE_HEADINGS: Readonly<Record<(typeof WALL_STATES)[number], string>> = {
  as_delivered: 'As delivered',
  wedged: 'Wedged',
  turnings: 'Turnings',
}

function Clays({ sheet, voice }: PartProps) {
  const isAssumed = sheet.clays.some(({ water }) => water.some(({ isMeasured }) => !isMeasured))
  return (
    <table class="clays">
      <thead>
        <tr>
          <th scope="col">Water in the clay</th>
          {WALL_STATES.map((state) => (
            <th scope="col" class="number">
              {voice.words(STATE_HEADINGS[state])}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {sheet.clays.map(({ name, water }) => (
          <tr>
            <th scope="row">{name}</th>
            {water.map(({ content, isMeasured }) => (
              <td class="number">
                {voice.share(content)} <small>{isMeasured ? 'measured' : 'assumed'}</small>
              </td>
            ))}
          </tr>
        ))}
      </tbody>
      {isAssumed ? (
        <caption>Of the wet mass. What is assumed, a dry test would tell.</caption>
      ) : (
        <caption>Of the wet mass.</caption>
      )}
    </table>
  )
}

function Dust({ sheet }: { sheet: WallSheet }) {
  const { instead, limits, deferTo } = sheet.dust
  return (
    <section class="dust">
      <h2>Dry clay is dust in the lungs. Keep it wet.</h2>
      <ul>
        {instead.map((words) => (
          <li>{words}</li>
        ))}
      </ul>
      <p class="limits">
        Published limits for crystalline silica in the air:{' '}
        {limits
          .map(
            ({ authority, name, milligramsPerCubicMetre, averagedOver, document, asOf }) =>
              `${authority}, ${name.toLowerCase()}: ${milligramsPerCubicMetre} mg/m³ over ${averagedOver} (${document}, as of ${asOf})`,
          )
          .join('; ')}
        .
      </p>
      <p class="first">{deferTo}</p>
    </section>
  )
}
