/** A rule of the database, the statement that breaks it, and where the rule is to be taken away. */
export type BrokenRule = {
  /** What the database says while it has the rule. */
  rule: string
  object: 'trigger' | 'constraint' | 'function'
  /** Its name, where that is not the rule's. */
  name?: string
  table: string
  breaks: string
  /** What must be the case first so that no other rule speaks for this one. */
  given?: string
}

export function removalOf({ rule, object, name = rule, table }: BrokenRule): string {
  if (object === 'function') {
    return `create or replace function ${name}(leaving public.${table}, moment timestamptz) returns void
              language plpgsql as $$ begin end $$`
  }
  return object === 'trigger'
    ? `drop trigger ${name} on ${table}`
    : `alter table ${table} drop constraint ${name}`
}

export const constraint = (table: string, rule: string, breaks: string): BrokenRule => ({
  ...{ rule, object: 'constraint', table, breaks },
})
export const trigger = (table: string, rule: string, breaks: string): BrokenRule => ({
  ...{ rule, object: 'trigger', table, breaks },
})

/** For rules that set things right instead of refusing: says so unless the breach came about. */
export function unless(breach: string, rule: string): string {
  return `do $$ begin if not (${breach}) then
    raise exception 'the rule held' using errcode = 'check_violation', constraint = '${rule}';
  end if; end $$;`
}
