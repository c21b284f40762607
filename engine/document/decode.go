package document

import (
	"bytes"
	"fmt"
	"reflect"
	"strings"
	"unicode/utf8"
)

// Limit is the size in bytes above which Decode refuses a text: a job of ten
// thousand parts takes a tenth of it.
const Limit = 64 << 20

// Reader is a type that reads its own JSON, such as a document within the
// document. Paths and lines of the problems count from the value itself.
type Reader interface {
	ReadDocument(raw []byte) []Problem
}

// decoder reads one text.
type decoder struct {
	s        string
	pos      int
	dead     bool // no JSON any more: nothing further can be read
	depth    int
	segs     []segment
	problems []Problem
	lines    []int // where each line begins, once a problem needs it
}

// Decode reads data into the struct (or other value) that into points to and
// gives all problems. Unknown and double keys, keys left out that the type does
// not mark omitempty, wrong types and words, numbers that are none, and texts
// that are cut off are problems; null is one except where the type is a pointer,
// for which it stands for unknown. After a problem what was read is of no use.
func Decode(data []byte, into any) []Problem { return DecodeAtMost(Limit, data, into) }

// DecodeAtMost is Decode with a size limit in bytes of the caller's own.
func DecodeAtMost(limit int, data []byte, into any) []Problem {
	target := reflect.ValueOf(into)
	if target.Kind() != reflect.Pointer || target.IsNil() {
		panic("document: Decode wants a pointer to read into")
	}
	if len(data) > limit {
		return []Problem{{
			Read: fmt.Sprintf("%.0f MB", float64(len(data))/(1<<20)),
			Want: fmt.Sprintf("a document of at most %.0f MB; pictures belong beside it, not in it", float64(limit)/(1<<20)),
		}}
	}
	d := &decoder{}
	if d.begin(data); d.dead {
		return d.problems
	}
	n := rootOf(target.Type().Elem())
	if d.foreign(n) {
		return d.problems
	}
	d.value(n, target.Elem())
	d.end()
	return d.problems
}

// end checks that nothing but white space follows.
func (d *decoder) end() {
	if d.peek(); !d.dead && d.pos < len(d.s) {
		d.fail(short(d.s[d.pos:min(d.pos+30, len(d.s))]), "nothing behind the document's end")
	}
}

// begin takes the text over and checks that it is text at all.
func (d *decoder) begin(data []byte) {
	switch {
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}), bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		d.fail("UTF-16 text", "UTF-8 text")
		return
	case bytes.HasPrefix(data, []byte{0xef, 0xbb, 0xbf}):
		d.problem("a byte order mark at the very beginning", "UTF-8 text without one", "")
		data = data[3:]
	}
	d.s = string(data)
	if !utf8.ValidString(d.s) {
		for i := 0; i < len(d.s); {
			r, n := utf8.DecodeRuneInString(d.s[i:])
			if r == utf8.RuneError && n == 1 {
				d.pos = i
				break
			}
			i += n
		}
		d.fail(fmt.Sprintf("the byte 0x%02x", d.s[d.pos]), "UTF-8 text")
		return
	}
	if d.peek() == 0 && d.pos >= len(d.s) {
		d.fail("an empty text", "a JSON document")
	}
	d.pos = 0
}

// foreign says in one problem that the text is another program's, where none of
// its keys is known, instead of refusing each key by itself.
func (d *decoder) foreign(n *node) bool {
	if n.kind != nStruct || d.peek() != '{' {
		return false
	}
	at := d.pos
	// A scan of its own, as it may run into errors that the real reading tells
	// better; it stops at the first key that is known, mostly the very first.
	scan := decoder{s: d.s, pos: d.pos}
	var keys []string
	known := false
	scan.members('{', func(key string, _, _ int) {
		if _, ok := n.plan.byKey[key]; ok {
			known, scan.dead = true, true
			return
		}
		if len(keys) < 8 {
			keys = append(keys, fmt.Sprintf("%q", short(key)))
		}
		scan.skip()
	})
	if known || len(keys) == 0 {
		return false
	}
	d.problemAt(at, "a document with the keys "+strings.Join(keys, ", "), "a document with the keys "+n.plan.list(12), "")
	d.dead = true
	return true
}

// Keys lists the keys at the top of a text as far as it can be read as JSON,
// and the raw value of one of them: enough to tell what the text is before it is
// read for good.
func Keys(data []byte, wanted string) (keys []string, value []byte) {
	d := &decoder{s: string(bytes.TrimPrefix(data, []byte{0xef, 0xbb, 0xbf}))}
	if d.peek() != '{' {
		return nil, nil
	}
	d.members('{', func(key string, _, _ int) {
		d.peek()
		at := d.pos
		d.skip()
		if keys = append(keys, strings.Clone(key)); key == wanted && value == nil {
			value = []byte(d.s[at:d.pos])
		}
	})
	return keys, value
}
