/** Where `drizzle-kit generate` finds the tables and puts the named migrations; run it from the top. */
import { defineConfig } from 'drizzle-kit'

export default defineConfig({
  dialect: 'sqlite',
  schema: './server/store/tables.ts',
  out: './drizzle',
})
