import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'

export function accountRoutes(_app: FastifyInstance, _deps: Deps): void {}
