import { z } from '@hono/zod-openapi'
import type { Context } from 'hono'
import { correctEntry } from '../../db/correct.ts'
import type { Act, Circumstances } from '../../db/perform.ts'
import { present } from '../../shared/assert.ts'
import { Refusal } from '../../shared/refusal.ts'
import { actRoute, answerAct, occasionOf } from '../act-route.ts'
import { ALL_ACTS } from '../acts/all-acts.ts'
import { circumstances, type DefinedAct } from '../acts/define.ts'
import { refuseFinerThanCoin } from '../money-of-studio.ts'
import { newRouter } from '../router.ts'
import { idText, momentText } from '../schemas.ts'
import type { Environment } from '../services.ts'

const postedAgain = z.discriminatedUnion('act', [
  ...(ALL_ACTS.map((defined) => oneAct(defined)) as [
    ReturnType<typeof oneAct>,
    ...ReturnType<typeof oneAct>[],
  ]),
])

const correctRequest = z
  .strictObject({
    entryId: idText('The entry that was wrong.', '0199c1de-0000-7000-8000-00000000000e'),
    postAgain: postedAgain.optional().openapi({
      description:
        'What happened instead: the act and all that is said for it. Both stand, or none.',
    }),
    ...circumstances,
    happenedAt: momentText(
      'When it is taken back; at the moment of the wrong entry where it is not said. Must be in an open month.',
    ).optional(),
  })
  .openapi('Correct')

const route = actRoute({
  name: 'correct',
  group: 'The books',
  summary: 'Correct an entry',
  description:
    'Takes an entry back by its mirror image and, where postAgain says so, posts what happened instead. The wrong entry stays readable.',
  schema: correctRequest,
  example: {
    entryId: '0199c1de-0000-7000-8000-00000000000e',
    note: 'Read the wrong bucket',
    postAgain: {
      act: 'turn',
      content: {
        runId: 'mugs-1',
        vesselId: 'bucket-1',
        turnings: { net: { value: '2.26', unit: 'kg' } },
      },
    },
  },
})

type CorrectRequest = z.output<typeof correctRequest>

export const correct = newRouter().openapi(route, (async (c: Context<Environment>) => {
  const { postAgain, ...said } = c.req.valid('json' as never) as CorrectRequest
  await refuseFinerThanCoin(c, { postAgain })
  const again = postAgain && {
    act: pointingInside(actNamed(postAgain.act)),
    said: postAgain.content,
  }
  return answerAct(c, await correctEntry(c.get('services'), occasionOf(c), { said, again }))
}) as never)

function oneAct({ name, summary, schema }: DefinedAct) {
  return z.strictObject({
    act: z.literal(name).openapi({ description: summary }),
    content: schema,
  })
}

function actNamed(name: string): Act<Circumstances> {
  return present(
    ALL_ACTS.find((defined) => defined.name === name),
    'only acts that there are pass the door',
  ).act
}

/** What the repeated act refuses is at fault inside postAgain, and the pointer must say so. */
function pointingInside(act: Act<Circumstances>): Act<Circumstances> {
  return {
    kind: act.kind,
    async write(book, said) {
      try {
        return await act.write(book, said)
      } catch (error) {
        if (!(error instanceof Refusal) || error.pointer === undefined) throw error
        throw new Refusal(error.code, error.message, {
          pointer: `/postAgain/content${error.pointer}`,
          facts: error.facts,
          cause: error.cause,
        })
      }
    },
  }
}
