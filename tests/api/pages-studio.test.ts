import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { chosen, cookieOf, get, post, settingsOf } from './page-forms.ts'
import { openPottery, type Pottery } from './pottery.ts'

let pottery: Pottery
beforeAll(async () => {
  pottery = await openPottery()
})
afterAll(() => pottery.close())

describe('how the studio writes', () => {
  const cookie = 'studio=mill-lane'

  test('is shown as it is, beside what stays for good', async () => {
    const { text } = await get(pottery, '/books/studio', cookie)
    const { jurisdiction } = await settingsOf(pottery, 'mill-lane')
    expect(text.match(/<h1>/g)).toHaveLength(1)
    expect(chosen(text, 'massUnits', 'metric')).toBe(true)
    expect(chosen(text, 'dateOrder', 'day_month_year')).toBe(true)
    expect(chosen(text, 'tradeWords', 'UK')).toBe(true)
    expect(chosen(text, 'jurisdiction', String(jurisdiction))).toBe(true)
    expect(chosen(text, 'comparesMakers', 'no')).toBe(true)
    expect(text).toContain('Stays for good')
    expect(text).not.toMatch(/name="(currency|timeZone)"/)
    expect(text).toContain('href="/begin"')
  })

  test('changes at once, and back', async () => {
    const now = await settingsOf(pottery, 'mill-lane')
    const changed = {
      ...now,
      massUnits: 'pounds_ounces',
      dateOrder: 'year_month_day',
      tradeWords: 'US',
      jurisdiction: 'AU',
    }
    const answer = await post(pottery, '/books/studio', {
      fields: { ...changed, comparesMakers: 'yes' },
      headers: { Cookie: cookie },
    })
    expect([answer.status, answer.headers.get('location')]).toEqual([
      303,
      '/books/studio?kept=studio',
    ])
    expect(await settingsOf(pottery, 'mill-lane')).toEqual(changed)
    const { text } = await get(pottery, '/books/studio?kept=studio', cookie)
    expect(text).toContain('Kept.')
    expect(text).toContain('2026-06-15')
    expect(text).toContain('lang="en-US"')
    expect(chosen(text, 'comparesMakers', 'yes')).toBe(true)
    await post(pottery, '/books/studio', { fields: now, headers: { Cookie: cookie } })
    expect(await settingsOf(pottery, 'mill-lane')).toEqual(now)
  })

  test('what is not right comes back with what was typed', async () => {
    const now = await settingsOf(pottery, 'mill-lane')
    const answer = await post(pottery, '/books/studio', {
      fields: { ...now, name: 'x'.repeat(121), tradeWords: 'US' },
      headers: { Cookie: cookie },
    })
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('href="#name"')
    expect(answer.text).toContain('x'.repeat(121))
    expect(chosen(answer.text, 'tradeWords', 'US')).toBe(true)
    expect(await settingsOf(pottery, 'mill-lane')).toEqual(now)
  })
})

describe('what only the phone remembers', () => {
  const cookie = 'studio=mill-lane'
  const keep = (fields: Record<string, string>) =>
    post(pottery, '/books/studio/phone', { fields, headers: { Cookie: cookie } })

  test('who works at it, and how light the room is', async () => {
    const answer = await keep({ who: 'Inès & Tom', light: 'dim' })
    expect([answer.status, answer.headers.get('location')]).toEqual([
      303,
      '/books/studio?kept=phone',
    ])
    const kept = ['by', 'light'].map((name) => cookieOf(answer, name)?.split(';')[0] ?? '')
    const { text } = await get(pottery, '/books/studio', [cookie, ...kept].join('; '))
    expect(text).toContain('value="Inès &amp; Tom"')
    expect(text).toContain('data-light="dim"')
    expect(chosen(text, 'light', 'dim')).toBe(true)
  })

  test('nothing said is nothing kept', async () => {
    const answer = await keep({ who: '', light: 'phone' })
    for (const name of ['by', 'light']) expect(cookieOf(answer, name)).toMatch(/Max-Age=0/)
    const { text } = await get(pottery, '/books/studio', `${cookie}; light=glaring; by=%20`)
    expect(text).not.toContain('data-light')
    expect(chosen(text, 'light', 'phone')).toBe(true)
  })

  test('a name that is too long is refused', async () => {
    const answer = await keep({ who: 'x'.repeat(121), light: 'dim' })
    expect(answer.status).toBe(422)
    expect(answer.text).toContain('href="#who"')
    expect(cookieOf(answer, 'by')).toBeUndefined()
  })
})
