import { chmod, mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import path from 'node:path'
import { fileURLToPath } from 'node:url'
import postgres from 'postgres'
import { openEmbedded } from './embedded.ts'
import { migrate } from './migrate.ts'

export const SNAPSHOT_FILE = fileURLToPath(new URL('./schema.snapshot.sql', import.meta.url))

const HEADING = `-- The schema as the catalog of the database tells it after all migrations. Not to be run: it is
-- here to be read, and so that a change of the schema shows as a difference. \`npm run snapshot\`
-- writes it.
`

/**
 * The whole schema `public` as SQL text, sorted by name, the same on every server.
 *
 * Numbers of the catalog, owners and the order of creation stay out of it; whether a trigger is
 * switched off does not, because then its rule is not kept.
 */
export async function schemaSnapshot(sql: postgres.Sql): Promise<string> {
  return sql.begin('read only', async (transaction) => {
    // What is printed with or without its schema depends on this.
    await transaction`set local search_path to public`
    const sections: string[] = [HEADING]
    for (const [title, query] of Object.entries(SECTIONS)) {
      const rows = await transaction.unsafe<{ text: string }[]>(query)
      const texts = rows.map((row) => row.text.trim()).sort(byCharacters)
      sections.push(
        `-- ${title}\n\n${texts.join(title === 'Functions' || title === 'Tables' ? '\n\n' : '\n') || '-- none'}\n`,
      )
    }
    return sections.join('\n')
  })
}

/** Not by the server's language, which sorts elsewhere otherwise. */
function byCharacters(one: string, other: string): number {
  return one < other ? -1 : Number(one > other)
}

const OURS = `relnamespace = 'public'::regnamespace`

/** For each kind of thing the query that prints it, one text a row. */
const SECTIONS: Readonly<Record<string, string>> = {
  Tables: `
    select format(E'create table %I (\\n%s\\n);%s', c.relname,
             string_agg(format('  %I %s%s%s', a.attname, format_type(a.atttypid, a.atttypmod),
               coalesce(' default ' || pg_get_expr(d.adbin, d.adrelid), ''),
               case when a.attnotnull then ' not null' else '' end), E',\\n' order by a.attnum),
             case when c.relrowsecurity then
               format(E'\\nalter table %I enable row level security;', c.relname) else '' end) as text
      from pg_class c
      join pg_attribute a on a.attrelid = c.oid and a.attnum > 0 and not a.attisdropped
      left join pg_attrdef d on d.adrelid = a.attrelid and d.adnum = a.attnum
     where c.${OURS} and c.relkind in ('r', 'p')
     group by c.oid, c.relname, c.relrowsecurity`,
  // A column says itself that it is not null; a trigger of a constraint is printed with the triggers.
  Constraints: `
    select format('alter table %s add constraint %I %s;', c.relname, k.conname,
             pg_get_constraintdef(k.oid)) as text
      from pg_constraint k join pg_class c on c.oid = k.conrelid
     where c.${OURS} and k.contype in ('p', 'u', 'f', 'c', 'x')`,
  Indexes: `
    select pg_get_indexdef(i.indexrelid) || ';' as text
      from pg_index i join pg_class c on c.oid = i.indexrelid
     where c.${OURS} and not exists (select from pg_constraint where conindid = i.indexrelid)`,
  'Views and sequences': `
    select format('create %s %I%s;', case relkind when 'S' then 'sequence' else 'view' end, relname,
             ' as ' || pg_get_viewdef(oid)) as text
      from pg_class where ${OURS} and relkind in ('v', 'm', 'S', 'f')`,
  Functions: `
    select rtrim(pg_get_functiondef(oid), E'\\n') || E';\\n' as text
      from pg_proc where pronamespace = 'public'::regnamespace and prokind in ('f', 'p')`,
  Triggers: `
    select format('%s;%s', pg_get_triggerdef(t.oid), case when t.tgenabled = 'O' then ''
             else format(' -- not enabled as usual: %s', t.tgenabled) end) as text
      from pg_trigger t join pg_class c on c.oid = t.tgrelid
     where c.${OURS} and not t.tgisinternal`,
  Policies: `
    select format('create policy %I on %I as %s for %s to %s using (%s) with check (%s);', policyname,
             tablename, permissive, cmd, array_to_string(roles, ', '), qual, with_check) as text
      from pg_policies where schemaname = 'public'`,
  'What others than the owner may do': `
    select format('grant %s on %s to %s;', string_agg(lower(privilege), ', ' order by privilege), thing,
             coalesce(r.rolname, 'public')) as text
      from (
        select 'schema ' || n.nspname as thing, e.privilege_type as privilege, e.grantee, nspowner as owner
          from pg_namespace n, aclexplode(n.nspacl) e where n.nspname = 'public'
        union all
        select 'table ' || c.relname, e.privilege_type, e.grantee, c.relowner
          from pg_class c, aclexplode(c.relacl) e where c.${OURS}
        union all
        select format('table %s (%s)', c.relname, a.attname), e.privilege_type, e.grantee, c.relowner
          from pg_attribute a join pg_class c on c.oid = a.attrelid, aclexplode(a.attacl) e
         where c.${OURS}
        union all
        select 'function ' || p.proname, e.privilege_type, e.grantee, p.proowner
          from pg_proc p, aclexplode(p.proacl) e where p.pronamespace = 'public'::regnamespace
      ) as granted left join pg_roles r on r.oid = grantee
     where grantee <> owner
     group by thing, r.rolname`,
}

/** Writes the snapshot of a new database in a temporary folder, which is gone afterwards. */
async function writeSnapshot(): Promise<void> {
  const dataFolder = await mkdtemp(path.join(tmpdir(), 'slakebook-snapshot-'))
  // The server may run as another user than we do, and must be able to enter.
  await chmod(dataFolder, 0o755)
  try {
    const server = await openEmbedded({ dataFolder, log: () => undefined })
    try {
      await migrate(server.url)
      const sql = postgres(server.url, { max: 1, onnotice: () => undefined })
      await writeFile(SNAPSHOT_FILE, await schemaSnapshot(sql))
      await sql.end()
    } finally {
      await server.stop()
    }
  } finally {
    await rm(dataFolder, { recursive: true, force: true })
  }
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  await writeSnapshot()
  console.log(`Wrote ${path.relative(process.cwd(), SNAPSHOT_FILE)}`)
}
