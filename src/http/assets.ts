import { createHash } from 'node:crypto'
import { readdirSync } from 'node:fs'
import { build } from 'esbuild'
import type { FastifyInstance } from 'fastify'
import { type Encoded, encoded, sendEncoded } from './encoded.ts'
import { NotFound } from './errors.ts'
import { pickedShape } from './picked-shape.ts'

const FOLDER = new URL('../../views/assets/', import.meta.url)
const TYPES = {
  css: 'text/css; charset=utf-8',
  js: 'text/javascript; charset=utf-8',
  svg: 'image/svg+xml',
} as const

interface Asset extends Encoded {
  type: string
}

export interface Assets {
  /** The hashed addresses of assets: `style.css` has `/assets/style-1a2b3c4d.css`. */
  addresses: Record<string, string>
  files: Map<string, Asset>
}

/** Bundles every style sheet, script and picture of views/assets/ in memory; files whose name begins with _ are parts of others. */
export async function buildAssets(): Promise<Assets> {
  const entries = readdirSync(FOLDER).filter(name => /\.(css|ts|svg)$/.test(name) && !name.startsWith('_'))
  const { outputFiles } = await build({
    entryPoints: entries.map(name => new URL(name, FOLDER).pathname),
    outdir: '/',
    bundle: true,
    loader: { '.svg': 'copy' },
    plugins: [pickedShape],
    minify: true,
    write: false,
    format: 'esm',
    target: 'es2022',
    logLevel: 'silent',
  })
  const files = new Map<string, Asset>()
  const addresses: Assets['addresses'] = {}
  for (const output of outputFiles) {
    const name = output.path.split('/').at(-1)!
    const [stem, ending] = name.split('.') as [string, keyof typeof TYPES]
    const plain = Buffer.from(output.contents)
    const hashed = `${stem}-${createHash('sha256').update(plain).digest('hex').slice(0, 10)}.${ending}`
    files.set(hashed, { type: TYPES[ending], ...(await encoded(plain)) })
    addresses[name] = `/assets/${hashed}`
  }
  return { files, addresses }
}

export function serveAssets(app: FastifyInstance, assets: Assets): void {
  app.get<{ Params: { file: string } }>(
    '/assets/:file',
    { config: { access: 'asset' } },
    (request, reply) => {
      const asset = assets.files.get(request.params.file)
      if (!asset) throw new NotFound()
      reply.header('cache-control', 'public, max-age=31536000, immutable').type(asset.type)
      return sendEncoded(request, reply, asset)
    },
  )
}
