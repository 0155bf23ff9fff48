import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { passwordRoutes } from './password-routes.ts'
import { settingsRoutes } from './settings-routes.ts'

/** What the guarded scope holds: the owner's settings, and everybody's own password. */
export function staffAccountRoutes(app: FastifyInstance, deps: Deps): void {
  settingsRoutes(app, deps)
  passwordRoutes(app, deps)
}
