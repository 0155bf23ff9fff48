import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { setUpRoutes } from './set-up-routes.ts'
import { signInRoutes } from './sign-in-routes.ts'

export function accountRoutes(app: FastifyInstance, deps: Deps): void {
  setUpRoutes(app, deps)
  signInRoutes(app, deps)
}
