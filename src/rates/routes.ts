import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'

export function ratesRoutes(_app: FastifyInstance, _deps: Deps): void {}
