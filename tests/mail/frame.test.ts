import { mkdtemp, rm, writeFile } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { compileFrame, fetches, frameOf } from '../../src/mail/frame.ts'

// What MJML 5 lets through without an error was seen on its own output: dropped includes, lost text, raw values.
describe('filling', () => {
  const frame = frameOf('<p title="{{a}}">{{a}}</p>{{{b}}}', ['{{a}}', '{{{b}}}'], 'small')

  test('plain values are escaped, fragments are not, and nothing is read twice', () => {
    const html = frame.fill({ values: { a: '<b>"{{{b}}}" & \'{{a}}\'' }, fragments: { b: '<i>{{a}}</i>' } })
    expect(html).toBe(
      '<p title="&lt;b&gt;&quot;{{{b}}}&quot; &amp; &#39;{{a}}&#39;">&lt;b&gt;&quot;{{{b}}}&quot; &amp; &#39;{{a}}&#39;</p><i>{{a}}</i>',
    )
  })

  test('a value for no slot, and a slot without a value, are faults', () => {
    expect(() => frame.fill({ values: { a: '', c: '' }, fragments: { b: '' } })).toThrow('no slot for c')
    expect(() => frame.fill({ values: { a: '' }, fragments: {} })).toThrow('nothing for slot b')
    expect(
      () => frame.fill({ values: { a: '', b: '' }, fragments: {} }),
      'a fragment is no plain value',
    ).toThrow()
  })

  test('a dropped include, a lost slot and an outside address are faults', () => {
    expect(() => frameOf('<!-- mj-include denied -->', [], 'x')).toThrow('include')
    expect(() => frameOf('<p>{{a}}</p>', ['{{a}}', '{{{b}}}'], 'x')).toThrow('lost {{{b}}}')
    expect(() => frameOf('<p style="background:url(x)">', [], 'x')).toThrow('fetch')
  })
})

test.each([
  ['<img alt="">', '<img'],
  ['<a href="https://shop.example">', 'https://'],
  ['<td style="background: URL (x)">', 'URL ('],
  ['<style>@import "x"</style>', '@import'],
  ['<iframe src = "x">', 'src ='],
])('%s would fetch something', (html, found) => expect(fetches(html)).toBe(found))

test('namespaces and mailto fetch nothing', () => {
  expect(
    fetches('<html xmlns:v="urn:x" xmlns="http://www.w3.org/1999/xhtml"><a href="mailto:a@b.example">'),
  ).toBeUndefined()
})

describe('compiling', () => {
  let folder: string
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), 'stillfits-frame-'))
  })
  afterAll(() => rm(folder, { recursive: true }))
  const compiled = async (name: string, body: string) => {
    await writeFile(
      join(folder, name),
      `<mjml><mj-body><mj-section><mj-column>${body}</mj-column></mj-section></mj-body></mjml>`,
    )
    return compileFrame(pathToFileURL(join(folder, name)))
  }

  test('a whole frame compiles', async () => {
    const frame = await compiled('whole.mjml', '<mj-text>{{a}}</mj-text>')
    expect(frame.fill({ values: { a: 'x<y' }, fragments: {} })).toContain('x&lt;y')
  })
  test('an include that is not there', async () => {
    await expect(compiled('gone.mjml', '<mj-include path="./gone-part.mjml" />')).rejects.toThrow()
  })
  test('an element that MJML does not know', async () => {
    await expect(compiled('odd.mjml', '<mj-txt>x</mj-txt>')).rejects.toThrow()
  })
  test('an unclosed element that loses its text', async () => {
    await expect(compiled('open.mjml', '<mj-text>{{a}}<mj-text>{{{b}}}')).rejects.toThrow(
      /lost|odd|clos|pars/i,
    )
  })
})
