export const en = {}

export const es: typeof en = {}
