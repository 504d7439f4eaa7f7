import { materialsHere } from '../../../db/reports/materials-here.ts'
import { newRouter } from '../../router.ts'
import { actPage } from '../act-page.tsx'
import { firstNeeded } from '../first-needed.tsx'
import { show } from '../show.tsx'
import { countMaterialPage } from './count-page.tsx'
import { materialsIn } from './delivery.tsx'
import { materialAtHand } from './here.ts'
import { noGlaze, noMaterial, openGlaze, openMaterial } from './opening.tsx'
import { MaterialPage, ShelfPage } from './shelf-page.tsx'
import { useMaterialPage } from './use-page.tsx'

/** What is kept beside clay: it comes, is counted, and goes. */
export const materialsRoom = newRouter()

materialsRoom.get('/books/materials', async (c) => {
  const rows = await materialsHere(c.get('services').db, c.get('studioId'))
  return show(
    c,
    { title: 'Materials', here: 'books' },
    <ShelfPage rows={rows} voice={c.get('voice')} />,
  )
})

materialsRoom.get('/books/materials/:materialId', async (c) => {
  const found = await materialAtHand(c)
  return show(
    c,
    { title: found.material.name, here: 'books' },
    <MaterialPage {...found} voice={c.get('voice')} />,
  )
})

firstNeeded(materialsRoom, materialsIn.path, noMaterial)
actPage(materialsRoom, materialsIn)
actPage(materialsRoom, countMaterialPage)
actPage(materialsRoom, useMaterialPage)

firstNeeded(materialsRoom, openMaterial.path, noMaterial)
actPage(materialsRoom, openMaterial)
firstNeeded(materialsRoom, openGlaze.path, noGlaze)
actPage(materialsRoom, openGlaze)
