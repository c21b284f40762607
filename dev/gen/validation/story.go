package main

const stories = `What no row of a table can hold is walked whole:

- *The body shop, from the complaint to what is planted in it* (` + "`internal/shop/example`" + `: a clogged filter, a
  gate valve with its disc off, a plug that only looks as if it fits).
  ` + "`internal/edge/cli/testdata/script/ailing.txtar`" + ` does it by commands; ` + "`TestComplaintToFaults`" + ` in
  ` + "`internal/decide/find`" + ` takes only the readings that are proposed, off a model with the faults put in, and has
  both restrictions as the first two causes within six; ` + "`web/test/weak.mjs`" + ` does it with a phone, through a gap of
  the network and a figure in the wrong unit.
- *Faults made up over the examples*, counted with seeds that nothing was fitted to: [benchmarks.md](benchmarks.md),
  the bounds that are missed among them.
`

// stories adds what is shown by walking it.
func (p *page) stories() {
	p.heading(2, "Faults found")
	p.line("%s", stories)
}
