import type { FastifyInstance } from 'fastify'
import type { Deps } from '../deps.ts'
import { besidePriceRoutes } from './beside-price-routes.ts'
import { billingSettingsRoutes } from './billing-routes.ts'
import { codesRoutes } from './codes-routes.ts'
import { againRoutes } from './danger.ts'
import { passkeyRoutes } from './passkey-routes.ts'
import { passwordRoutes } from './password-routes.ts'
import { sessionRoutes } from './session-routes.ts'
import { settingsRoutes } from './settings-routes.ts'
import { sharingRoutes } from './sharing-routes.ts'
import { staffRoutes } from './staff-routes.ts'

/** What the guarded scope holds: the owner's settings and how the form is shared, and everybody's own password. */
export function staffAccountRoutes(app: FastifyInstance, deps: Deps): void {
  againRoutes(app, deps)
  settingsRoutes(app, deps)
  staffRoutes(app, deps)
  sharingRoutes(app, deps)
  besidePriceRoutes(app, deps)
  billingSettingsRoutes(app, deps)
  passwordRoutes(app, deps)
  codesRoutes(app, deps)
  passkeyRoutes(app, deps)
  sessionRoutes(app, deps)
}
