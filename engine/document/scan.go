package document

import (
	"fmt"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// maxDepth bounds nesting: no document of the program goes deeper than twenty.
const maxDepth = 100

// peek is the next byte that is not white space; 0 at the end of the text.
func (d *decoder) peek() byte {
	for d.pos < len(d.s) {
		switch c := d.s[d.pos]; c {
		case ' ', '\t', '\n', '\r':
			d.pos++
		default:
			return c
		}
	}
	return 0
}

// fail ends the reading: what stands here is no JSON and nothing behind it can
// be told apart any more.
func (d *decoder) fail(read, want string) {
	if d.dead {
		return
	}
	d.problemAt(d.pos, read, want, "")
	d.dead = true
	d.pos = len(d.s)
}

// unexpected fails at the present place, telling truncation from a stray sign.
func (d *decoder) unexpected(want string) {
	if d.pos >= len(d.s) {
		d.fail("the end of the text", want+"; the document is cut off")
		return
	}
	r, _ := utf8.DecodeRuneInString(d.s[d.pos:])
	if strings.HasPrefix(d.s[d.pos:], "//") || strings.HasPrefix(d.s[d.pos:], "/*") {
		d.fail("a comment", want+"; JSON has no comments")
		return
	}
	d.fail(fmt.Sprintf("%q", r), want)
}

// str reads a string whose opening quote is next. The text shares the
// document's memory unless it holds escapes.
func (d *decoder) str() string {
	start := d.pos + 1
	for i := start; i < len(d.s); i++ {
		switch c := d.s[i]; {
		case c == '"':
			d.pos = i + 1
			return d.s[start:i]
		case c == '\\':
			return d.escaped(start, i)
		case c < 0x20:
			d.pos = i
			d.fail("a line break or control character inside quotes", `a closing quote; a line break is written \n`)
			return ""
		}
	}
	d.pos = len(d.s)
	d.unexpected("a closing quote")
	return ""
}

// escaped goes on with a string from its first backslash at i.
func (d *decoder) escaped(start, i int) string {
	b := append(make([]byte, 0, 2*(i-start)+16), d.s[start:i]...)
	for i < len(d.s) {
		c := d.s[i]
		switch {
		case c == '"':
			d.pos = i + 1
			return string(b)
		case c < 0x20:
			d.pos = i
			d.fail("a line break or control character inside quotes", `a closing quote; a line break is written \n`)
			return ""
		case c != '\\':
			b = append(b, c)
			i++
		default:
			r, n := unescape(d.s[i:])
			if n == 0 {
				d.pos = i
				d.fail(short(d.s[i:min(i+6, len(d.s))]), `an escape of JSON: \" \\ \/ \b \f \n \r \t \u0000`)
				return ""
			}
			b = utf8.AppendRune(b, r)
			i += n
		}
	}
	d.pos = len(d.s)
	d.unexpected("a closing quote")
	return ""
}

// unescape reads one escape; n is its length, 0 where it is none. Half of a
// surrogate pair is refused: it stands for no character.
func unescape(s string) (r rune, n int) {
	if len(s) < 2 {
		return 0, 0
	}
	if i := strings.IndexByte(`"\/bfnrt`, s[1]); i >= 0 {
		return rune("\"\\/\b\f\n\r\t"[i]), 2
	}
	r, ok := hex4(s)
	if !ok {
		return 0, 0
	}
	if !utf16.IsSurrogate(r) {
		return r, 6
	}
	low, ok := hex4(s[6:])
	if pair := utf16.DecodeRune(r, low); ok && pair != utf8.RuneError {
		return pair, 12
	}
	return 0, 0
}

// hex4 reads \uXXXX.
func hex4(s string) (rune, bool) {
	if len(s) < 6 || s[0] != '\\' || s[1] != 'u' {
		return 0, false
	}
	var r rune
	for _, c := range []byte(s[2:6]) {
		switch {
		case c >= '0' && c <= '9':
			c -= '0'
		case c >= 'a' && c <= 'f':
			c -= 'a' - 10
		case c >= 'A' && c <= 'F':
			c -= 'A' - 10
		default:
			return 0, false
		}
		r = r<<4 | rune(c)
	}
	return r, true
}

// word reads a bare word: a number, true, false, null, or something that wanted
// to be one. It is taken whole so that the reading can go on behind it.
func (d *decoder) word() string {
	start := d.pos
	for d.pos < len(d.s) {
		c := d.s[d.pos]
		if c <= ' ' || strings.IndexByte(`,:[]{}"`, c) >= 0 {
			break
		}
		d.pos++
	}
	return d.s[start:d.pos]
}

// isNumber says whether w is a number in the grammar of JSON (RFC 8259, 6).
func isNumber(w string) bool {
	i := 0
	digits := func() bool {
		from := i
		for i < len(w) && w[i] >= '0' && w[i] <= '9' {
			i++
		}
		return i > from
	}
	if i < len(w) && w[i] == '-' {
		i++
	}
	if i < len(w) && w[i] == '0' {
		i++
	} else if !digits() {
		return false
	}
	if i < len(w) && w[i] == '.' {
		i++
		if !digits() {
			return false
		}
	}
	if i < len(w) && (w[i] == 'e' || w[i] == 'E') {
		i++
		if i < len(w) && (w[i] == '+' || w[i] == '-') {
			i++
		}
		if !digits() {
			return false
		}
	}
	return i == len(w)
}

// The scanner is one of its own, and not that of encoding/json, for three things
// which that one cannot give: the place of each value for line numbers, double
// keys, and going on behind a wrong word so that all problems come at once. It
// knows no state but a position: after a grave error the position is put at the
// end and dead is set, on which every loop stops.

// members walks the members of the object or list that is next. each stands
// before a value (key "" in a list) and must read it.
func (d *decoder) members(open byte, each func(key string, i, keyPos int)) {
	if d.depth++; d.depth > maxDepth {
		d.fail(fmt.Sprintf("more than %d brackets within each other", maxDepth), "a document of the program")
		return
	}
	defer func() { d.depth-- }()
	closing, d0 := open+2, d.pos // in ASCII ']' and '}' stand two behind their opening
	d.pos++
	for i := 0; !d.dead; i++ {
		if d.peek() == closing {
			if i > 0 && !d.dead {
				d.problem("a comma behind the last entry", "no comma before "+string(closing), "")
			}
			d.pos++
			return
		}
		key, at := "", d.pos
		if open == '{' {
			if key = d.key(); d.dead {
				return
			}
		}
		each(key, i, at)
		if d.dead {
			return
		}
		switch c := d.peek(); {
		case c == ',':
			d.pos++
		case c == closing:
			d.pos++
			return
		case c == 0:
			d.unexpected(fmt.Sprintf("a comma or %c for the %c of line %d", closing, open, d.lineOf(d0)))
		// A forgotten comma is the commonest slip of a hand-written file, and what
		// follows it can still be told apart.
		case c == '"' || open == '[' && (c == '{' || c == '['):
			d.problem("two entries without a comma between them", "a comma", "")
		default:
			d.unexpected(fmt.Sprintf("a comma or %c", closing))
		}
	}
}

// key reads a member's key and the colon behind it.
func (d *decoder) key() string {
	if d.peek() != '"' {
		d.unexpected("a key in double quotes")
		return ""
	}
	key := d.str()
	if d.dead {
		return ""
	}
	if d.peek() != ':' {
		d.unexpected(fmt.Sprintf("a colon behind the key %q", key))
		return ""
	}
	d.pos++
	return key
}

// skip reads past one value, checking only that it is JSON.
func (d *decoder) skip() {
	switch c := d.peek(); c {
	case '{', '[':
		d.members(c, func(string, int, int) { d.skip() })
	case '"':
		d.str()
	default:
		d.bare()
	}
}

// bare reads a bare word and says what is wrong with it, if anything.
func (d *decoder) bare() string {
	at := d.pos
	w := d.word()
	switch {
	case w == "":
		d.unexpected("a value")
	case w == "true", w == "false", w == "null", isNumber(w):
	default:
		d.badWord(at, w, "a value of JSON")
	}
	return w
}
