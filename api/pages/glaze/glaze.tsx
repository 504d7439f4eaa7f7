import { waitingForGlaze } from '../../../db/reports/glaze-waiting.ts'
import { weighOut } from '../../../db/reports/glaze-batch.ts'
import { newRouter } from '../../router.ts'
import { actPage } from '../act-page.tsx'
import { enterFirst, firstNeeded, Ways } from '../first-needed.tsx'
import type { FormFaults } from '../field-words.tsx'
import { refuseMissing } from '../missing.ts'
import { faultsForPage } from '../page-faults.ts'
import { show } from '../show.tsx'
import { allMaterials, allVessels } from '../things.ts'
import { Typed } from '../typed.ts'
import { batchAsked } from './batch-asked.ts'
import { BucketPage } from './bucket-page.tsx'
import { dipPage } from './dip.tsx'
import { GlazePage } from './glaze-page.tsx'
import { bucketHere, bucketsHere } from './here.ts'
import { HowMuch } from './how-much.tsx'
import { losePage } from './lose.tsx'
import { mixPage } from './mix.tsx'
import { readPage } from './read.tsx'
import { recipePages } from './recipe.tsx'
import { waterPage } from './water.tsx'

/** Glaze: its buckets, the bisque that waits for it, its recipes. */
export const glazeRoom = newRouter()

const here = 'glaze'

glazeRoom.get('/glaze', async (c) => {
  const waiting = await waitingForGlaze(c.get('services').db, c.get('studioId'))
  const glazes = (await allMaterials(c)).filter(({ kind }) => kind === 'glaze')
  const shown = { waiting, glazes, buckets: await bucketsHere(c), voice: c.get('voice') }
  return show(c, { title: 'Glaze', here }, <GlazePage {...shown} />)
})

glazeRoom.get('/glaze/bucket/:vesselId', async (c) => {
  const bucket = await bucketHere(c)
  const title = bucket.materialName
  return show(c, { title, here }, <BucketPage bucket={bucket} voice={c.get('voice')} />)
})

glazeRoom.get('/glaze/mix', async (c) => {
  const glazes = (await allMaterials(c)).filter(({ kind }) => kind === 'glaze')
  return show(
    c,
    { title: 'Mix a glaze', here },
    <>
      <h1>Mix a glaze</h1>
      {glazes.length === 0 ? <p>First say what glaze it is: its name is enough.</p> : null}
      <Ways
        ways={[
          ...glazes.map(({ materialId, name }) => ({ href: `/glaze/mix/${materialId}`, name })),
          enterFirst('materials', 'Enter a glaze', '/glaze/mix'),
        ]}
      />
    </>,
  )
})

glazeRoom.get('/glaze/mix/:glazeId', async (c) => {
  const { db } = c.get('services')
  const [glazeId, studioId] = [c.req.param('glazeId'), c.get('studioId')]
  const glaze = (await allMaterials(c)).find(({ materialId }) => materialId === glazeId)
  if (glaze?.kind !== 'glaze') return c.notFound()
  const query = new URL(c.req.url).searchParams
  const typed = new Typed(query)
  let wrong: { faults?: FormFaults; status?: 404 | 409 | 422 } = {}
  if (typed.isYes('asked')) {
    try {
      const list = await weighOut(db, { studioId, glazeId, ...batchAsked(typed) })
      if (list.dryGrams === '0') {
        refuseMissing('runIds', 'What is in the bucket is enough for these by the books.')
      }
      return c.redirect(`/glaze/weigh-out/${glazeId}?${query.toString()}`, 303)
    } catch (error) {
      wrong = faultsForPage(error, HOW_MUCH_FIELDS, c.get('voice'))
    }
  }
  const waiting = await waitingForGlaze(db, studioId)
  const bucket = (await bucketsHere(c)).find(({ materialId }) => materialId === glazeId)
  const shown = { glazeId, waiting, bucket, typed, faults: wrong.faults, voice: c.get('voice') }
  const title = `How much ${glaze.name}?`
  return show(
    c,
    { title, here, status: wrong.status },
    <>
      <h1>{title}</h1>
      <HowMuch {...shown} />
      <p>
        <a href={`/glaze/recipe/${glazeId}`}>Its recipe</a>
      </p>
    </>,
  )
})

const HOW_MUCH_FIELDS = {
  '/runIds': 'runIds',
  '/vesselId': 'vesselId',
  '/gramsPerMillilitre': 'density',
  '/versionNo': 'volume',
}

glazeRoom.get(mixPage.path, async (c, next) => {
  const isAsked = new URL(c.req.url).searchParams.size > 0
  if (isAsked) return next()
  return c.redirect(`/glaze/mix/${c.req.param('glazeId') ?? ''}`, 303)
})

firstNeeded(glazeRoom, mixPage.path, async (c) => {
  const isThere = (await allVessels(c)).some(({ kind }) => kind === 'bucket')
  if (isThere) return undefined
  return {
    title: 'Mix a glaze',
    words: 'One thing comes first: the bucket that it goes into.',
    ways: [enterFirst('vessels', 'Enter a bucket', c.req.path)],
    here,
  }
})

actPage(glazeRoom, mixPage)
actPage(glazeRoom, dipPage)
actPage(glazeRoom, readPage)
actPage(glazeRoom, waterPage)
actPage(glazeRoom, losePage)
glazeRoom.route('/', recipePages)
