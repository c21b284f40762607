package cli

import (
	"strings"
	"testing"
)

// Help is read in a terminal of usual width: no line of it is longer than a hundred letters.
func TestHelpHasRoom(t *testing.T) {
	c := &call{Streams: System()}
	root := c.root()
	root.InitDefaultHelpCmd()
	for _, cmd := range append(root.Commands(), root) {
		var text strings.Builder
		cmd.SetOut(&text)
		if err := cmd.Help(); err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(text.String()) {
			if line = strings.TrimRight(line, "\n"); width(line) > 100 {
				t.Errorf("help of %s has a line of %d letters: %s", cmd.Name(), width(line), line)
			}
		}
	}
}

// A paragraph keeps to the page also where its first line stands farther in than the others,
// and ink takes no room.
func TestWrappedKeepsToThePage(t *testing.T) {
	p := &paper{width: 40}
	p.wrapped("A head of twenty:   ", "  ", "words that go on and on until the line has no room left for them")
	p.wrapped("\x1b[31mfault\x1b[0m  ", "       ", "words that go on and on")
	lines := strings.Split(strings.TrimRight(p.text.String(), "\n"), "\n")
	for _, l := range lines {
		if shown(l) > p.width {
			t.Errorf("%q has %d letters", l, shown(l))
		}
	}
	if len(lines) != 4 {
		t.Errorf("%d lines, wanted three and one: ink counted as letters?", len(lines))
	}
}
