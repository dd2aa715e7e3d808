export const main = async (args: readonly string[]): Promise<number> => {
  process.stdout.write(`${args.join(' ')}\n`)
  return 0
}
