import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { findPicture } from '../requests/photos/queries.ts'
import { photoIdOf, sendPicture } from '../requests/photos/send-picture.ts'
import { requireRequestId } from '../requests/queries.ts'

interface OfPhoto {
  Params: { number: string; photo: string }
}

/** The photos that homeowners sent, for the staff. */
export function photoRoutes(app: FastifyInstance, deps: Deps): void {
  for (const size of ['picture', 'small'] as const)
    app.get<OfPhoto>(
      `/queue/:number/photos/:photo${size === 'small' ? '/small' : ''}`,
      { config: { access: 'office' } },
      async (request, reply) => {
        const { number, photo } = request.params
        const id = await requireRequestId(deps.db, number)
        return sendPicture(reply, await findPicture(deps.db, id, photoIdOf(photo), size))
      },
    )
}
