import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { say } from '../http/flash.ts'
import { FormFields } from '../http/form-fields.ts'
import { requireAccount } from '../http/signed-in.ts'
import { type Confirmed, confirmFigures, readTicks } from './looked-at.ts'
import { showRates } from './routes.ts'

const NOTHING_TICKED = 'Tick the figures that are right, or press “All of these are right”.'

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
      ? 'Nothing was new: those were looked at before.'
      : added === 1
        ? 'One figure is looked at. It stays as it is.'
        : `${added} figures are looked at. They stay as they are.`
  if (changed === 0) return done
  const late =
    changed === 1
      ? 'One was changed since this page was opened, and isn’t taken as looked at.'
      : `${changed} were changed since this page was opened, and aren’t taken as looked at.`
  return added === 0 ? late : `${done} ${late}`
}
