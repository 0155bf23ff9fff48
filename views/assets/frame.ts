/** In a frame on a site that may show this page, tells that site how tall the page is, so that the frame needs no bar. */
const named = (document.body.dataset.sites ?? '').split(' ').filter(Boolean)

if (window.parent !== window && named.length > 0) {
  document.documentElement.classList.add('in-frame')
  const parents = parentsOf(named)
  let told = 0
  new ResizeObserver(() => {
    const height = Math.ceil(document.body.getBoundingClientRect().height)
    if (height === told) return
    told = height
    for (const site of parents) window.parent.postMessage({ bedwrightHeight: height }, site)
  }).observe(document.body)
}

// Where a browser doesn't say who shows the page, each named site is told, and those that it isn't hear nothing.
function parentsOf(sites: string[]): string[] {
  const [parent] = location.ancestorOrigins ?? []
  return parent === undefined ? sites : sites.filter(site => site === parent)
}
