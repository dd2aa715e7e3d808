/**
 * The fields of a form of ours as a browser would post it untouched: what is ticked, chosen and typed, with line
 * breaks as CRLF (HTML Standard, section 4.10.22.4, "constructing the entry list", and RFC 7578).
 */
export function fieldsOf(html: string, action: string): [name: string, value: string][] {
  const form = formsOf(html).find((text) => attribute(text, 'action') === action)
  if (form === undefined) throw new Error(`no form with the action ${action}`)
  const fields: [string, string][] = []
  for (const [tag = '', name = ''] of form.matchAll(
    /<(?:input|textarea|select)\b[^>]*\bname="([^"]*)"[^>]*>/g,
  )) {
    const rest = form.slice(form.indexOf(tag) + tag.length)
    if (tag.startsWith('<textarea'))
      fields.push([name, crlf(decoded(rest.slice(0, rest.indexOf('</textarea>'))))])
    else if (tag.startsWith('<select'))
      fields.push([name, chosenOf(rest.slice(0, rest.indexOf('</select>')))])
    else if (!/type="(?:checkbox|radio|file|submit)"/.test(tag) || /\bchecked\b/.test(tag))
      fields.push([name, crlf(decoded(attribute(tag, 'value') ?? ''))])
  }
  return fields
}

const formsOf = (html: string): string[] => html.match(/<form\b[\s\S]*?<\/form>/g) ?? []

const attribute = (text: string, name: string): string | undefined =>
  new RegExp(`^[^>]*?\\b${name}="([^"]*)"`).exec(text)?.[1]

function chosenOf(options: string): string {
  const all = options.match(/<option\b[^>]*>/g) ?? []
  const chosen = all.find((option) => /\bselected\b/.test(option)) ?? all[0] ?? ''
  return decoded(attribute(chosen, 'value') ?? '')
}

const crlf = (text: string): string => text.replaceAll(/\r\n?|\n/g, '\r\n')

const decoded = (text: string): string =>
  text
    .replaceAll('&lt;', '<')
    .replaceAll('&gt;', '>')
    .replaceAll('&quot;', '"')
    .replaceAll('&#39;', "'")
    .replaceAll('&amp;', '&')
