package cli

import (
	"os"
	"strconv"
	"strings"
	"unicode/utf8"

	"golang.org/x/term"
)

// paper is a page of text under way: how wide it is, and what it can show.
type paper struct {
	text   strings.Builder
	width  int
	colour bool
	plain  bool // letters, digits and signs of ASCII only
}

// The widths between which a page of text is pleasant to read.
const (
	usualWidth = 80
	leastWidth = 40
	mostWidth  = 110
)

// paper opens a page for standard output. Colour is for a terminal alone and
// never the only sign; TERM=dumb and a C locale get plain letters.
func (c *call) paper() *paper {
	p := &paper{width: usualWidth}
	dumb := c.Env("TERM") == "dumb"
	p.plain = dumb || plainLocale(c.Env)
	if f, ok := c.Out.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		if w, _, err := term.GetSize(int(f.Fd())); err == nil && w > 0 {
			p.width = w
		}
		p.colour = !dumb && c.Env("NO_COLOR") == ""
	}
	if w, err := strconv.Atoi(c.Env("COLUMNS")); err == nil && w > 0 {
		p.width = w
	}
	p.width = min(max(p.width, leastWidth), mostWidth)
	return p
}

// plainLocale says whether the locale rules out more than ASCII.
func plainLocale(env func(string) string) bool {
	for _, name := range []string{"LC_ALL", "LC_CTYPE", "LANG"} {
		if v := env(name); v != "" {
			return v == "C" || v == "POSIX"
		}
	}
	return false
}

// The inks. Bold and dim carry no meaning; red and yellow go with a word.
const (
	bold   = "1"
	dim    = "2"
	red    = "31"
	yellow = "33"
	green  = "32"
)

// ink puts text into a colour, where there is one.
func (p *paper) ink(style, text string) string {
	if !p.colour || text == "" {
		return text
	}
	return "\x1b[" + style + "m" + text + "\x1b[0m"
}

// line ends a line.
func (p *paper) line(text string) { p.text.WriteString(strings.TrimRight(text, " ") + "\n") }

// blank leaves a line empty.
func (p *paper) blank() { p.text.WriteByte('\n') }

// wrapped writes a paragraph, its first line after first, the rest after rest.
func (p *paper) wrapped(first, rest, text string) {
	lines := wrapAfter(text, p.width-shown(first), p.width-width(rest))
	for i, l := range lines {
		if i == 0 {
			p.line(first + l)
			continue
		}
		p.line(rest + l)
	}
}

// columns writes lines of two columns, set apart by two blanks or more; those that are
// too long go on beneath their second column.
func (p *paper) columns(text string) {
	for line := range strings.Lines(text) {
		line = strings.TrimRight(line, "\n")
		first := strings.TrimLeft(line, " ")
		at := strings.Index(first, "  ")
		if width(line) <= p.width || at < 0 {
			p.line(line)
			continue
		}
		rest := strings.TrimLeft(first[at:], " ")
		head := strings.TrimSuffix(line, rest)
		if width(head) > p.width/2 { // hardly a column: go on with little indent
			p.wrapped("", "  ", line)
			continue
		}
		p.wrapped(head, pad("", width(head)), rest)
	}
}

// heading writes a line that stands out.
func (p *paper) heading(text string) { p.line(p.ink(bold, text)) }

// bytes is the page, in plain letters where need be.
func (p *paper) bytes() []byte {
	s := p.text.String()
	if p.plain {
		s = plainLetters(s)
	}
	return []byte(s)
}

// wrap breaks text into lines of at most room letters, at blanks; a word that is
// longer has a line of its own.
func wrap(text string, room int) []string { return wrapAfter(text, room, room) }

// wrapAfter is wrap where the first line has a room of its own.
func wrapAfter(text string, room, rest int) []string {
	var lines []string
	line := ""
	for _, word := range strings.Fields(text) {
		switch {
		case line == "":
			line = word
		case width(line)+1+width(word) <= room:
			line += " " + word
		default:
			lines = append(lines, line)
			line, room = word, rest
		}
	}
	return append(lines, line)
}

// width is how many columns a text without ink takes.
func width(text string) int { return utf8.RuneCountInString(text) }

// shown is how many columns a text takes, its ink left out.
func shown(text string) int {
	n := 0
	for {
		before, after, inked := strings.Cut(text, "\x1b[")
		n += width(before)
		if !inked {
			return n
		}
		_, text, _ = strings.Cut(after, "m")
	}
}

// pad fills a text up to a width on the right.
func pad(text string, to int) string {
	if n := to - width(text); n > 0 {
		return text + strings.Repeat(" ", n)
	}
	return text
}

// left fills a text up to a width on the left.
func left(text string, to int) string {
	if n := to - width(text); n > 0 {
		return strings.Repeat(" ", n) + text
	}
	return text
}

// plainLetters writes in ASCII what has a near form there.
func plainLetters(s string) string {
	return strings.NewReplacer(
		"█", "#", "▓", "#", "▒", "=", "░", "-", "▌", "#", "│", "|", "─", "-", "┊", ":", "◂", "<", "●", "*", "○", "o",
		"×", "x", "·", "-", "…", "~", "–", "-", "—", "-", "−", "-", "→", "->", "≥", ">=", "≤", "<=", "°C", "C", "°F", "F", "°", " deg",
		"²", "2", "³", "3", "½", "1/2", "“", "\"", "”", "\"", "’", "'", "√", "sqrt", "Δ", "d", "ρ", "rho", "µ", "u", "✓", "+", "✗", "x",
	).Replace(s)
}

// supposed tells the figures that the job does not state, if there are any.
func (p *paper) supposed(words []string) {
	if len(words) > 0 {
		p.blank()
		p.wrapped("", "", "Supposed, as the job does not say: "+strings.Join(words, "; ")+".")
	}
}
