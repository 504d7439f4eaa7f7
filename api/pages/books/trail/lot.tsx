import type { Context } from 'hono'
import { traceLot } from '../../../../db/reports/lots.ts'
import { namesOf } from '../../../../db/reports/names.ts'
import { present } from '../../../../shared/assert.ts'
import type { Environment } from '../../../services.ts'
import { show } from '../../show.tsx'
import { LOT_KIND_WORDS } from './filter-words.ts'
import { HoldingsTable, LeadsOn, Passages } from './holdings-shown.tsx'

/** A lot of clay: where it is, came from and went to. */
export async function showLot(c: Context<Environment>): Promise<Response> {
  const { db } = c.get('services')
  const voice = c.get('voice')
  const { studioId } = voice.studio
  const lotId = present(c.req.param('lotId'), 'the address names a lot')
  const lot = await traceLot(db, { studioId, lotId })
  const { isNow, cameFrom, wentTo, links } = lot
  const nameOf = await namesOf(db, studioId, {
    body: [lot.bodyId],
    bat: [lot.batId],
    holding: [...isNow, ...cameFrom, ...wentTo].map(({ holdingId }) => holdingId),
  })
  const about = [
    `${nameOf('body', lot.bodyId)}, ${LOT_KIND_WORDS[lot.kind] ?? lot.kind}`,
    lot.bags === null ? '' : `${String(lot.bags)} bags at first`,
    lot.dryGramsAtFirst === null ? '' : `${voice.mass(lot.dryGramsAtFirst)} of dry clay at first`,
    lot.goodsPrice === null ? '' : `${voice.money(lot.goodsPrice)} at the supplier’s`,
    lot.freight === null || lot.freight === '0' ? '' : `${voice.money(lot.freight)} of freight`,
  ]
  return show(
    c,
    { title: lot.label, here: 'books' },
    <>
      <h1>{lot.label}</h1>
      <p class="in-words">{voice.words(about.filter((words) => words !== '').join('. '))}.</p>
      <LeadsOn
        links={[
          ['What happened to it', links.entries],
          ['How it began', links.madeBy],
          ['Where it is or was', links.holdings],
          [lot.batId === null ? '' : nameOf('bat', lot.batId), links.bat],
          [nameOf('body', lot.bodyId), links.body],
        ]}
      />
      <h2>Where it is now</h2>
      <HoldingsTable holdings={isNow} voice={voice} nameOf={nameOf} />
      <h2>Where it came from</h2>
      <Passages passages={cameFrom} voice={voice} nameOf={nameOf} />
      <h2>Where it went</h2>
      <Passages passages={wentTo} voice={voice} nameOf={nameOf} />
    </>,
  )
}
