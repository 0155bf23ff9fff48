import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'

export function outboxRoutes(_app: FastifyInstance, _deps: Deps): void {}
