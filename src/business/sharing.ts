import type { RateTable } from '../estimate/table/rate-table.ts'

/** How the form gets to homeowners: what the owner copies, prints and links to. */
export interface Sharing {
  /** The address of the form. */
  address: string
  /** For the owner's own site: the form in a frame, and a few lines that give the frame its height. */
  snippet: string
  heightLines: string
  /** The address with a material picked already, for each material that is offered. */
  links: { name: string; address: string }[]
  /** What one adds to any of them for a ZIP or postcode. */
  postcodeAdds: string
}

/** Everything on sharing the form; `table` is undefined before set-up. */
export function sharingOf(publicUrl: string, business: string, table: RateTable | undefined): Sharing {
  const offered = table?.finishes.filter(finish => finish.offered) ?? []
  return {
    address: `${publicUrl}/`,
    snippet: snippetOf(publicUrl, business),
    heightLines: heightLinesOf(publicUrl),
    links: offered.map(({ slug, name }) => ({
      name: name.en,
      address: `${publicUrl}/?material=${encodeURIComponent(slug)}`,
    })),
    postcodeAdds: '&postcode=43004',
  }
}

function snippetOf(publicUrl: string, business: string): string {
  const title = `Price range from ${business}`
    .replace(/&/g, '&amp;')
    .replace(/"/g, '&quot;')
    .replace(/</g, '&lt;')
  return `<iframe id="bedwright" src="${publicUrl}/" title="${title}" style="width: 100%; height: 900px; border: 0"></iframe>`
}

function heightLinesOf(publicUrl: string): string {
  return `<script>
addEventListener('message', event => {
  const height = event.origin === '${publicUrl}' && Number(event.data.bedwrightHeight)
  if (height > 0) document.getElementById('bedwright').style.height = height + 'px'
})
</script>`
}
