import { FOOD_CONTACT_TEXTS, FOOD_CONTACT_WORDS } from '../../../shared/food-contact.ts'
import type { Voice } from '../voice.ts'

/** That no glaze is judged here, and whose tests and limits there are. */
export function FoodContact({ voice }: { voice: Voice }) {
  const { jurisdiction } = voice.studio
  const here = FOOD_CONTACT_TEXTS.filter(
    (text) => jurisdiction === 'other' || [jurisdiction, 'other'].includes(text.jurisdiction),
  )
  const texts = here.some((text) => text.limits.length > 0) ? here : FOOD_CONTACT_TEXTS
  const [first, ...others] = FOOD_CONTACT_WORDS
  return (
    <section class="food-contact">
      <h2>For food</h2>
      <p>{first}</p>
      <details class="more">
        <summary>Tests, and published limits</summary>
        {others.map((words) => (
          <p>{words}</p>
        ))}
        <ul>
          {texts.map(({ authority, document, limits, note, asOf }) => (
            <li>
              <strong>{authority}</strong>, {document} (read {asOf}).{' '}
              {limits
                .map(({ ware, metal, amount, unit }) => `${ware}: ${metal} ${amount} ${unit}`)
                .join('; ')}
              {limits.length === 0 ? '' : '. '}
              {note}
            </li>
          ))}
        </ul>
      </details>
    </section>
  )
}
