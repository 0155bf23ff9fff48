import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'

export function requestRoutes(_app: FastifyInstance, _deps: Deps): void {}
