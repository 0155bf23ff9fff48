export const en = {
  'card.heading': 'What would it cost to mulch your garden beds?',
  'card.text': 'Scan this with your phone, describe your beds roughly, and see a price range right away.',
}

export const es: Record<keyof typeof en, string> = {
  'card.heading': '¿Cuánto costaría poner mantillo en sus jardineras?',
  'card.text':
    'Escanee esto con su teléfono, describa sus jardineras a grandes rasgos y vea enseguida un rango de precio.',
}
