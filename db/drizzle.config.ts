import { defineConfig } from 'drizzle-kit'

/** Read by drizzle-kit alone, from the top folder, when a migration is generated. */
export default defineConfig({
  dialect: 'postgresql',
  schema: './db/schema.ts',
  out: './db/migrations',
})
