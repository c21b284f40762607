// CONTRACT: how a law tells itself to `calc`, to "where from?" and to the tests.

package formula

import (
	"dropleg/engine/cite"
	"dropleg/engine/unit"
)

// Formula is one law that can be asked for: its words, its equation, its
// source and range, what it takes and gives, and its evaluation. It is
// declared beside the law that it tells, and its Eval calls that law.
type Formula struct {
	Name  string // the word for `calc`, lower case
	Title string // one line for people
	Law   string // the equation in plain text, symbols as in the inputs
	Range string // where it holds and what happens outside
	Cite  []cite.Ref
	In    []Symbol
	Out   []Symbol
	// Eval computes every output that the inputs determine. It returns an
	// error that names the input at fault in the trade's words; never NaN.
	Eval func(Values) (Values, error)
}

// Symbol is one input or output of a formula.
type Symbol struct {
	Key      string    // the word typed, or the key of --json
	Kind     unit.Kind // how text is read and printed; SI inside
	Words    string    // what it is, for people
	Default  *float64  // SI; nil: no default
	Choices  []string  // for KindWord: the words accepted; none: any word
	Word     string    // for KindWord: the default; "": none
	Optional bool      // may be left out though there is no default
}

// Values holds numbers in SI and words by key. A key that is absent was not
// given. A symbol of KindYesNo is a number, 1 or 0. An input of KindFlow stands
// in Flow, as it was stated; an output of KindFlow is a number, m³/s at ISO 1217.
type Values struct {
	Num  map[string]float64
	Word map[string]string
	Flow map[string]unit.FlowReading
}
