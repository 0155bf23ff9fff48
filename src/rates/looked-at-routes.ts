import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { type Confirmed, confirmFigures, readTicks } from './looked-at.ts'
import { showRates } from './routes.ts'

const NOTHING_TICKED = 'Check the figures that are right, or press “All of these are right”.'

/** The owner says of figures that the table started with that they are right as they are. */
export function lookedAtRoutes(app: FastifyInstance, deps: Deps): void {
  app.post('/rates/looked-at', { config: { access: 'owner' } }, async (request, reply) => {
    const fields = new FormFields(request.body)
    const ticks = readTicks(fields.ticks(fields.text('do') === 'all' ? 'shown' : 'right'))
    const confirmed = await confirmFigures(deps, requireAccount(request).id, ticks)
    if (confirmed.added + confirmed.before + confirmed.changed === 0)
      return showRates(reply, deps, { errors: { 'not-looked-at': NOTHING_TICKED } }, 422)
    say(reply, inWords(confirmed))
    return reply.redirect('/rates', 303)
  })
}

function inWords({ added, changed }: Confirmed): string {
  const done =
    added === 0
      ? 'Those were already marked as right.'
      : added === 1
        ? 'One figure is marked as right.'
        : `${added} figures are marked as right.`
  if (changed === 0) return done
  const late =
    changed === 1
      ? 'One changed after you opened this page, so it isn’t marked.'
      : `${changed} changed after you opened this page, so they aren’t marked.`
  return added === 0 ? late : `${done} ${late}`
}
