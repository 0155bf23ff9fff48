import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'

export function bookingRoutes(_app: FastifyInstance, _deps: Deps): void {}
