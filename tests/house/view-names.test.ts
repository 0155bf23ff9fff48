import { expect, test, vi } from 'vitest'
import { filesOf, type SourceFile } from './files.ts'
import { viewFaults } from './view-faults.ts'

// The compiler reads the whole program for it.
vi.setConfig({ testTimeout: 120_000 })

const views = filesOf('views/**/*.eta')
const source = filesOf('src/**/*.ts')

/** The views with another text for one of them. */
function planted(name: string, text: string): SourceFile[] {
  const path = `views/${name}.eta`
  return views.map(view => (view.path === path ? { path, text } : view))
}

test('every template reads what it is given, and nothing else', () => {
  expect(viewFaults(views, source)).toEqual([])
})

test('what nothing gives, what nothing reads, a field and a sentence that aren’t there are told', () => {
  const text = [
    "<% layout('/layouts/public', { title: it.t(it.key) }) %>",
    '<%= it.custmer %> <%= it.params %> <%= it.status %> <%= it.again?.action %> <%= it.business?.nmae %>',
    `<%= it.t('common.no-such') %>`,
  ].join('')
  expect(viewFaults(planted('errors/error', text), source)).toEqual([
    "errors/error isn't given custmer, which errors/error reads",
    "errors/error doesn't read requestId, which it is given",
    "errors/error: Property 'nmae' does not exist, in out(it.business?.nmae)",
    `errors/error: Argument of type '"common.no-such"' is not assignable to parameter of type 'Key'., in out(it.t('common.no-such'))`,
  ])
})
