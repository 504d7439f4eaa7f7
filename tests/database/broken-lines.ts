import { entryOf, goingBack, lineOf } from './by-hand.ts'
import type { Amounts, EntryByHand } from './by-hand.ts'
import { constraint, trigger, unless } from './broken-rule.ts'
import type { BrokenRule } from './broken-rule.ts'

/** An amount that comes to one holding and leaves another. */
export const pairOf = (amounts: Amounts, to = 'bench', from = 'supplier') => [
  { to, ...amounts },
  { to: from, ...goingBack(amounts) },
]
export const entry = (more: Partial<EntryByHand>) => entryOf({ id: 'broken', ...more })

/** What a line must be, whoever writes it. */
export const LINE_RULES: BrokenRule[] = [
  trigger(
    'line',
    'line_moves_its_holding',
    entry({ lines: pairOf({ dry: '1' }) }) +
      unless(
        `500 = (select dry_grams from holding where studio_id = 'lane' and holding_id = 'bench')`,
        'line_moves_its_holding',
      ),
  ),
  // To the outside, where no balance is in the way once the rule is gone.
  ...['dry', 'material', 'water', 'cost', 'glaze'].map((column) =>
    constraint(
      'line',
      'line_must_fit_scale',
      entry({ lines: pairOf({ [column]: '1.0000001' }, 'tap') }),
    ),
  ),
  constraint('line', 'line_must_fit_scale', entry({ lines: pairOf({ pieces: '0.5' }) })),
  constraint(
    'line',
    'line_must_fit_scale',
    entry({ lines: pairOf({ cost: '1', glaze: '1' }) }).replaceAll('"glaze"', '"gold"'),
  ),
  ...['doubt', 'costDoubt', 'materialDoubt'].map((column) =>
    constraint(
      'line',
      'doubt_must_fit_scale',
      entry({ lines: pairOf({ dry: '1', [column]: '1.0000001' }) }),
    ),
  ),
  constraint('line', 'line_must_move_something', entry({ lines: pairOf({ dry: '0' }) })),
  constraint(
    'line',
    'line_must_be_one_a_holding',
    entry({ lines: [...pairOf({ dry: '1' }), ...pairOf({ water: '1' }, 'bench', 'tap')] }),
  ),
  constraint('line', 'line_has_a_holding', entry({ lines: pairOf({ dry: '1' }, 'nowhere') })),
  {
    ...constraint('line', 'line_has_an_entry', ''),
    given: 'drop trigger entry_must_be_open on line',
    breaks: pairOf({ dry: '1' })
      .map((line, at) => lineOf('nowhere', at + 1, line))
      .join('\n'),
  },
]
