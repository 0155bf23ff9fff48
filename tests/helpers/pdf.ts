import { extractText, getDocumentProxy, getMeta } from 'unpdf'

/** What a program reads of a PDF: the words of each page, its title and language, and whether it is tagged. */
export async function readPdf(bytes: Uint8Array) {
  const document = await getDocumentProxy(new Uint8Array(bytes))
  const { text: pages } = await extractText(document, { mergePages: false })
  const { info } = await getMeta(document)
  const marked = await document.getMarkInfo()
  await document.loadingTask.destroy()
  const words = pages.map(page => page.replace(/\s+/g, ' ').trim())
  return {
    pages: words,
    text: words.join(' '),
    title: info.Title,
    language: info.Language,
    isTagged: marked?.Marked,
  }
}
