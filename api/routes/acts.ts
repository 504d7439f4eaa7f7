import type { Handler } from 'hono'
import { performAct, type Circumstances } from '../../db/perform.ts'
import { actRoute, answerAct, occasionOf } from '../act-route.ts'
import { ALL_ACTS } from '../acts/all-acts.ts'
import type { DefinedAct } from '../acts/define.ts'
import { refuseFinerThanCoin } from '../money-of-studio.ts'
import { newRouter } from '../router.ts'
import type { Environment } from '../services.ts'

/** POST /v1/acts/<kind>: everything that can happen to clay, one address each. */
export const acts = newRouter()

for (const defined of ALL_ACTS) acts.openapi(actRoute(defined), handlerOf(defined) as never)

/** Acts of all kinds come by here, so what was validated is told by the list and not by its type. */
function handlerOf({ act }: DefinedAct): Handler<Environment> {
  return async (c) => {
    const said = c.req.valid('json' as never) as Circumstances
    await refuseFinerThanCoin(c, said)
    return answerAct(c, await performAct(c.get('services'), occasionOf(c), { act, said }))
  }
}
