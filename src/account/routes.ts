import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { setUpRoutes } from '../first-run/set-up-routes.ts'
import { passwordRoutes } from './password-routes.ts'
import { settingsRoutes } from './settings-routes.ts'
import { signInRoutes } from './sign-in-routes.ts'

/** What anybody may open: the first run, by its one-time link, and signing in. */
export function accountRoutes(app: FastifyInstance, deps: Deps): void {
  setUpRoutes(app, deps)
  signInRoutes(app, deps)
}

/** What the guarded scope holds: the owner's settings, and everybody's own password. */
export function staffAccountRoutes(app: FastifyInstance, deps: Deps): void {
  settingsRoutes(app, deps)
  passwordRoutes(app, deps)
}
