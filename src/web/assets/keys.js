// Single keys, where no field has the focus. The list of keys in the page says which there are; without it there are none.
{
  const list = document.getElementById('keys')
  const box = document.getElementById('go')
  const found = [...document.querySelectorAll('.found a')]
  const isField = (element) => element.closest('input, select, textarea, [contenteditable]') !== null
  // What was typed into a form and not sent yet must not go by one key; also what a browser filled in again.
  const isChanged = (field) => {
    if (field.options !== undefined) {
      const first = [...field.options].findIndex((option) => option.defaultSelected)
      return field.selectedIndex !== Math.max(0, first)
    }
    return field.value !== field.defaultValue || field.checked !== field.defaultChecked
  }
  const isTyped = () =>
    [...document.querySelectorAll('main form :is(input, select, textarea)')].some(isChanged)
  const open = (link) => {
    if (link !== null && !isTyped()) link.click()
  }
  const does = {
    '/': () => box?.select(),
    '?': () => list.showModal(),
    '.': () => open(document.querySelector('main a[rel=next]')),
    ',': () => open(document.querySelector('main a[rel=prev]')),
  }
  if (list !== null) {
    list.querySelector('button').addEventListener('click', () => list.close())
    document.addEventListener('keydown', (event) => {
      const { key, target } = event
      if (event.ctrlKey || event.altKey || event.metaKey || event.repeat || event.isComposing) return
      if (event.defaultPrevented || isField(target)) return
      if (list.open && key === '?') return
      const act = does[key]
      const link = act ? null : list.querySelector(`a[data-key="${CSS.escape(key.toLowerCase())}"]`)
      if (act === undefined && link === null) return
      event.preventDefault()
      if (list.open) list.close()
      if (act) act()
      else open(link)
    })
  }
  // Up and down walk through what was found, from the box and back to it; Enter opens, as everywhere.
  document.addEventListener('keydown', (event) => {
    if (found.length === 0 || (event.key !== 'ArrowDown' && event.key !== 'ArrowUp')) return
    const at = found.indexOf(document.activeElement)
    if (at < 0 && document.activeElement !== box) return
    event.preventDefault()
    const to = at + (event.key === 'ArrowDown' ? 1 : -1)
    if (to < 0) box?.select()
    else found[Math.min(to, found.length - 1)].focus()
  })
  if (box?.value !== '' && location.pathname === '/find') found[0]?.focus({ preventScroll: true })
}
