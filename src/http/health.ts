import type { FastifyInstance } from 'fastify'
import { type Kysely, sql } from 'kysely'
import type { Database } from '../db/schema.ts'

/** `/livez` touches nothing; `/readyz` asks the database, and `/healthz` is its other name. */
export function healthRoutes(app: FastifyInstance, db: Kysely<Database>): void {
  app.get('/livez', { config: { access: 'open' } }, async (_request, reply) =>
    reply.type('text/plain').header('cache-control', 'no-store').send('ok\n'),
  )
  for (const path of ['/readyz', '/healthz']) {
    app.get(path, { config: { access: 'open' } }, async (request, reply) => {
      reply.type('text/plain').header('cache-control', 'no-store')
      try {
        await sql`select 1`.execute(db)
        return reply.send('ok\n')
      } catch (error) {
        request.log.error({ err: error }, 'the database does not answer')
        return reply.code(503).send('the database does not answer\n')
      }
    })
  }
}
