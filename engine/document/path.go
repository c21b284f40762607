package document

import (
	"fmt"
	"sort"
	"strconv"
	"strings"
	"unicode/utf8"
)

// maxProblems bounds the list: a file of another kind would fill pages.
const maxProblems = 500

// segment is one step of the way to the value being read. In a list start is
// where the entry stands, so that its id can be told; a key has index -1.
type segment struct {
	key   string
	index int
	start int
	thing bool // the entry is of a type that has an id
}

// problem notes what is wrong at the present path and place.
func (d *decoder) problem(read, want, nearest string) { d.problemAt(d.pos, read, want, nearest) }

// problemAt notes what is wrong at the present path and another place.
func (d *decoder) problemAt(at int, read, want, nearest string) {
	switch {
	case len(d.problems) > maxProblems:
	case len(d.problems) == maxProblems:
		d.problems = append(d.problems, Problem{
			Line: d.lineOf(at), Read: fmt.Sprintf("more than %d problems", maxProblems),
			Want: "those above mended first; the rest is not listed",
		})
	default:
		d.problems = append(d.problems, Problem{Path: d.path(), Line: d.lineOf(at), Read: read, Want: want, Nearest: nearest})
	}
}

// problemIn notes what is wrong with a member of the present value.
func (d *decoder) problemIn(key string, at int, read, want, nearest string) {
	d.segs = append(d.segs, segment{key: key, index: -1})
	d.problemAt(at, read, want, nearest)
	d.segs = d.segs[:len(d.segs)-1]
}

// lineOf is the 1-based line of a byte.
func (d *decoder) lineOf(at int) int {
	if d.lines == nil {
		d.lines = []int{0}
		for i := range len(d.s) {
			if d.s[i] == '\n' {
				d.lines = append(d.lines, i+1)
			}
		}
	}
	return sort.SearchInts(d.lines, at+1)
}

// path tells the way as people write it: net.runs[3] (line.main-2).size.
func (d *decoder) path() string {
	var b strings.Builder
	for _, s := range d.segs {
		if s.index < 0 {
			if b.Len() > 0 {
				b.WriteByte('.')
			}
			b.WriteString(short(s.key))
			continue
		}
		b.WriteByte('[')
		b.WriteString(strconv.Itoa(s.index))
		b.WriteByte(']')
		if s.thing {
			if id := idAt(d.s[s.start:]); id != "" {
				b.WriteString(" (" + id + ")")
			}
		}
	}
	return b.String()
}

// idAt is the id of the object at the head of s, if it has one near its
// beginning; looking no further keeps a hostile file from costing its square.
func idAt(s string) string {
	id := ""
	d := decoder{s: s[:min(len(s), 4096)]}
	if d.peek() != '{' {
		return ""
	}
	d.members('{', func(key string, _, _ int) {
		if key == "id" && d.peek() == '"' {
			if v := d.str(); !d.dead {
				id = v
			}
			d.dead = true // found; the rest is of no interest
			return
		}
		d.skip()
	})
	return short(id)
}

// short is a text as it may stand in a message: one line, not long.
func short(s string) string {
	const most = 60
	s = strings.Map(func(r rune) rune {
		if r < ' ' || r == utf8.RuneError {
			return ' '
		}
		return r
	}, s)
	if utf8.RuneCountInString(s) <= most {
		return s
	}
	return string([]rune(s)[:most-1]) + "…"
}

// Locate is the line at which the value of a path stands in a text that Decode
// accepted, or the line of the nearest thing around it; 0 for no text. Ids in
// brackets are for people and are passed over.
func Locate(data []byte, path string) int {
	if len(data) == 0 {
		return 0
	}
	d := decoder{s: string(data)}
	line := d.lineOf(len(d.s) - len(strings.TrimLeft(d.s, " \t\r\n")))
	for _, step := range steps(path) {
		found := -1
		c := d.peek()
		if c != '{' && c != '[' {
			break
		}
		d.members(c, func(key string, i, keyPos int) {
			if step.index < 0 && key == step.key || step.index >= 0 && c == '[' && i == step.index {
				d.peek()
				found, line = d.pos, d.lineOf(keyPos)
				d.dead = true // only to stop the walk
				return
			}
			d.skip()
		})
		if found < 0 {
			break
		}
		d.pos, d.dead = found, false
	}
	return line
}

// steps takes a path apart.
func steps(path string) []segment {
	var out []segment
	for i := 0; i < len(path); {
		switch c := path[i]; c {
		case '.':
			i++
		case ' ':
			if j := strings.IndexByte(path[i:], ')'); j >= 0 && i+1 < len(path) && path[i+1] == '(' {
				i += j + 1
			} else {
				i++
			}
		case '[':
			j := strings.IndexByte(path[i:], ']')
			if j < 0 {
				j = len(path) - i
			}
			n, err := strconv.Atoi(path[i+1 : i+j])
			if err != nil || n < 0 {
				out = append(out, segment{key: path[i : i+j], index: -1})
			} else {
				out = append(out, segment{index: n})
			}
			i = min(i+j+1, len(path))
		default:
			j := strings.IndexAny(path[i:], ".[ ")
			if j < 0 {
				j = len(path) - i
			}
			out = append(out, segment{key: path[i : i+j], index: -1})
			i += j
		}
	}
	return out
}
