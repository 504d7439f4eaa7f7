import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { chosen, cookieOf, get, post, settingsOf, studiosOf } from './page-forms.ts'
import { openPottery, type Pottery } from './pottery.ts'

let pottery: Pottery
/** Of one pottery nothing is there yet; of the other there are two studios. */
let empty: Pottery
beforeAll(async () => {
  pottery = await openPottery()
  empty = await openPottery({ studios: [] })
})
afterAll(async () => {
  await pottery.close()
  await empty.close()
})

const FERN = {
  key: 'fern-key',
  name: 'Fernhollow Pots',
  country: 'US',
  currency: 'USD',
  timeZone: 'America/Chicago',
  massUnits: 'pounds_ounces',
  dateOrder: 'month_day_year',
  tradeWords: 'US',
  jurisdiction: 'US',
}

describe('before there is a studio', () => {
  test.each(['/', '/weigh', '/books/studio', '/begin/next'])(
    '%s leads to its beginning',
    async (path) => {
      const answer = await get(empty, path)
      expect([answer.status, answer.headers.get('location')]).toEqual([303, '/begin'])
    },
  )

  test('one page asks for all of it, with words for each field', async () => {
    const { status, text } = await get(empty, '/begin')
    expect(status).toBe(200)
    expect(text.match(/<h1>/g)).toHaveLength(1)
    for (const name of Object.keys(FERN)) expect(text).toContain(`name="${name}"`)
    for (const name of ['name', 'country', 'currency', 'timeZone']) {
      expect(text).toMatch(new RegExp(`<label for="${name}">`))
      expect(text).toContain(`aria-describedby="${name}-hint"`)
    }
    for (const legend of ['Masses', 'Days', 'Words', 'Limits for dust']) {
      expect(text).toContain(`<legend>${legend}</legend>`)
    }
    expect(text).toMatch(/<input[^>]*name="timeZone"[^>]*data-time-zone=""/)
    expect(text).toContain('<option value="Europe/Dublin">')
    expect(text).not.toMatch(/ style=|<script(?![^>]* src=)/)
  })

  test('a country fills in what is usual there, and keeps the clock that the phone said', async () => {
    const asked = new URLSearchParams({ fill: 'yes', name: 'A & B', country: 'US' })
    const { text } = await get(empty, `/begin?${asked.toString()}`)
    expect(text).toContain('Filled in as is usual in United States.')
    expect(text).toContain('value="A &amp; B"')
    expect(text).toMatch(/<option value="USD" selected="">/)
    expect(chosen(text, 'massUnits', 'pounds_ounces')).toBe(true)
    expect(chosen(text, 'dateOrder', 'month_day_year')).toBe(true)
    expect(chosen(text, 'tradeWords', 'US')).toBe(true)
    expect(chosen(text, 'jurisdiction', 'US')).toBe(true)
    // There are several clocks in that country, and one in this.
    expect(text).not.toMatch(/name="timeZone"[^>]* value="[^"]/)
    asked.set('country', 'IE')
    asked.set('currency', 'USD')
    const irish = (await get(empty, `/begin?${asked.toString()}`)).text
    expect(irish).toMatch(/<option value="EUR" selected="">/)
    expect(irish).toContain('value="Europe/Dublin"')
    asked.set('timeZone', 'America/Chicago')
    expect((await get(empty, `/begin?${asked.toString()}`)).text).toContain(
      'value="America/Chicago"',
    )
  })

  test('what is missing is asked for by name, and what was typed is kept', async () => {
    const answer = await post(empty, '/begin', { fields: { key: 'k', name: 'Fernhollow <Pots>' } })
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('href="#currency"')
    expect(answer.text).toContain('href="#timeZone"')
    expect(answer.text).not.toContain('href="#name"')
    expect(answer.text).toContain('value="Fernhollow &lt;Pots&gt;"')
    expect(answer.text).toMatch(/<input[^>]*id="timeZone"[^>]*aria-invalid="true"/)
    expect(await studiosOf(empty)).toEqual([])
  })

  test.each([
    ['timeZone', 'Mars/Olympus'],
    ['currency', 'XAU'],
    ['massUnits', 'stone'],
    ['dateOrder', 'weekday'],
    ['tradeWords', 'FR'],
    ['jurisdiction', 'Mars'],
  ])('%s "%s" is refused at its field', async (field, value) => {
    const answer = await post(empty, '/begin', { fields: { ...FERN, [field]: value } })
    expect(answer.status).toBe(422)
    expect(answer.text).toContain(`href="#${field}"`)
    expect(answer.text).toContain('value="Fernhollow Pots"')
    expect(await studiosOf(empty)).toEqual([])
  })

  test('nothing is begun with what a country filled in and nobody saw', async () => {
    const { currency, ...rest } = FERN
    const answer = await post(empty, '/begin', { fields: rest })
    expect(answer.status).toBe(200)
    expect(answer.text).toContain('Money and clock stay so for good')
    expect(answer.text).toMatch(new RegExp(`<option value="${currency}" selected="">`))
    expect(await studiosOf(empty)).toEqual([])
  })

  test('nobody else’s page may begin one', async () => {
    const answer = await post(empty, '/begin', {
      fields: FERN,
      headers: { Origin: 'http://elsewhere.example' },
    })
    expect(answer.status).toBe(403)
    expect(await studiosOf(empty)).toEqual([])
  })

  test('it begins once, however often it is pressed, and says what to enter first', async () => {
    const answer = await post(empty, '/begin', { fields: FERN })
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/begin/next'])
    expect(cookieOf(answer, 'studio')).toMatch(/^studio=fern-key;.*HttpOnly.*SameSite=Lax/)
    const again = await post(empty, '/begin', { fields: FERN })
    expect(again.status).toBe(303)
    expect(await studiosOf(empty)).toMatchObject([
      {
        studioId: 'fern-key',
        name: 'Fernhollow Pots',
        currency: 'USD',
        timeZone: 'America/Chicago',
        massUnits: 'pounds_ounces',
        dateOrder: 'month_day_year',
        tradeWords: 'US',
        jurisdiction: 'US',
        comparesMakers: false,
      },
    ])
    const { text } = await get(empty, '/begin/next')
    for (const things of ['bodies', 'forms', 'vessels', 'scales']) {
      expect(text).toContain(`href="/books/things/${things}/new"`)
    }
    expect(text).not.toContain('✓')
    expect(text).toContain('Fernhollow Pots')
    expect(text).toContain('lang="en-US"')
  })

  test('as the only one it need not be remembered', async () => {
    expect((await get(empty, '/books/studio')).text).toContain('value="Fernhollow Pots"')
  })
})

describe('where there are several studios', () => {
  test('a phone that was at none chooses first', async () => {
    const answer = await get(pottery, '/weigh')
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/begin'])
    const { text } = await get(pottery, '/begin')
    expect(text).toContain('href="/?studio=mill-lane"')
    expect(text).toContain('href="/?studio=quay-side"')
    expect(text).toContain('Begin another studio')
  })

  test('an address that names one is kept to, and the phone remembers it', async () => {
    const answer = await get(pottery, '/weigh?studio=quay-side&from=label')
    expect([answer.status, answer.headers.get('location')]).toEqual([303, '/weigh?from=label'])
    const cookie = cookieOf(answer, 'studio') ?? ''
    expect(cookie).toMatch(/^studio=quay-side;.*Path=\/;.*HttpOnly.*SameSite=Lax/)
    expect(cookie).not.toContain('Secure')
    const page = await get(pottery, '/books/studio', 'studio=quay-side')
    expect(page.text).toContain('<a class="studio" href="/">')
    expect(page.status).toBe(200)
    const neighbour = await get(pottery, '/books/studio', 'studio=mill-lane')
    expect(neighbour.text).not.toBe(page.text)
  })

  test('one that there is not leads back to the choice, and is not remembered', async () => {
    const answer = await get(pottery, '/weigh?studio=nowhere')
    expect(answer.headers.get('location')).toBe('/begin')
    expect(cookieOf(answer, 'studio')).toBeUndefined()
    expect((await get(pottery, '/weigh', 'studio=nowhere')).headers.get('location')).toBe('/begin')
  })

  test('what a phone kept is refused, and not answered with a page, where it is at no studio', async () => {
    for (const path of ['/books/studio', '/books/studio?studio=nowhere']) {
      const answer = await post(pottery, path, {
        fields: { name: 'X' },
        headers: { Accept: 'application/json' },
      })
      expect([answer.status, answer.contentType]).toEqual([400, 'application/problem+json'])
    }
  })

  test('what is sent for one studio goes into its books, whatever the phone remembers', async () => {
    const fields = { ...(await settingsOf(pottery, 'quay-side')), name: 'Quay Side Clay' }
    const answer = await post(pottery, '/books/studio?studio=quay-side', {
      fields,
      headers: { Cookie: 'studio=mill-lane' },
    })
    expect(answer.status).toBe(303)
    const names = (await studiosOf(pottery)).map((studio) => studio['name'])
    expect(names).toContain('Quay Side Clay')
    expect(names).not.toEqual(['Quay Side Clay', 'Quay Side Clay'])
  })
})
