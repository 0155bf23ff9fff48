export const en = {
  'staff.nav': 'Pages',
  'staff.menu': 'Menu',
  'staff.days': 'Days',
  'staff.sign-out': 'Sign out',
  'staff.measures-us': 'feet, inches, and cubic yards',
  'staff.measures-metric': '{meters}, {centimeters}, and cubic {meters}',
}

export const es: Record<keyof typeof en, string> = {
  'staff.nav': 'Páginas',
  'staff.menu': 'Menú',
  'staff.days': 'Días',
  'staff.sign-out': 'Cerrar sesión',
  'staff.measures-us': 'pies, pulgadas y yardas cúbicas',
  'staff.measures-metric': '{meters}, {centimeters} y {meters} cúbicos',
}
