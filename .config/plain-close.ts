import type { Reporter, TestModule } from 'vitest/node'

/** Closes the run with one plain line, so that a log reader need not parse colours. */
export default class PlainClose implements Reporter {
  onTestRunEnd(modules: readonly TestModule[]) {
    const count = { passed: 0, failed: 0, skipped: 0 }
    for (const module of modules) {
      for (const test of module.children.allTests()) {
        const { state } = test.result()
        if (state === 'passed' || state === 'failed') count[state]++
        else count.skipped++
      }
    }
    process.stdout.write(`\n${count.passed} passed, ${count.failed} failed, ${count.skipped} skipped\n`)
  }
}
