package reftest

import (
	"math"
	"strings"
)

// Law is what of the program answers rows of one kind.
type Law struct {
	Topic string // the heading it stands under
	Name  string // in the trade's words
	Code  string // the function asked, "engine/air SaturationPressure"
	File  string // the table whose rows it answers
	// Of lists the quantities answered, each by its first words; none: all.
	// When narrows that further; nil: not.
	Of   []string
	When func(Row) bool
	// Got answers a row whose figure is Row.Want; Figures one with several.
	Got     func(Row) (float64, error)
	Figures func(Row) ([]Figure, error)
	// Shelf marks figures that the catalogue holds as they stand in the table:
	// agreement shows that the copy is right, and nothing about the figure.
	Shelf bool
	// Caution says what keeps the rows from being quite independent of the law.
	Caution string
	Because []Because
}

// Because explains rows that the law answers differently from their tolerance.
type Because struct {
	When func(Row) bool
	// Rel is the most that may be off, as a share of the row; Abs in its unit.
	Rel, Abs float64
	// Also works the row the way that the reason says it was made; the reason
	// stands only while these figures hold. nil: nothing can be worked.
	Also func(Row) ([]Figure, error)
	Why  string
}

// Figure is one number, or one word, of a row and the program's answer to it.
type Figure struct {
	Name           string // "" where the row has but one
	Want, Got      float64
	Allowed        float64
	Unit           string
	WantWord, Word string // in place of the numbers, if WantWord is not empty
}

// number makes a figure held to a share of its value.
func figure(name string, want, got, share float64, unit string) Figure {
	return Figure{Name: name, Want: want, Got: got, Allowed: share * math.Abs(want), Unit: unit}
}

// word makes a figure that is a word.
func word(name, want, got string) Figure {
	return Figure{Name: name, WantWord: want, Word: got}
}

// Off is how far the answer lies from the row, in its unit.
func (f Figure) Off() float64 {
	if f.WantWord != "" {
		if f.Word == f.WantWord {
			return 0
		}
		return math.Inf(1)
	}
	return math.Abs(f.Got - f.Want)
}

// Share is Off as a share of the figure; ok is false where that has no sense: a
// temperature on a scale with an arbitrary zero, a word, or zero.
func (f Figure) Share() (share float64, ok bool) {
	if f.WantWord != "" || f.Want == 0 || f.Unit == "C" || f.Unit == "F" {
		return 0, false
	}
	return f.Off() / math.Abs(f.Want), true
}

// claims says whether the row is one of the law's.
func (l Law) claims(r Row) bool {
	return r.File == l.File && begins(r.Quantity, l.Of) && (l.When == nil || l.When(r))
}

// begins says whether text begins with one of the words; with none it does.
func begins(text string, words []string) bool {
	for _, w := range words {
		if strings.HasPrefix(text, w) {
			return true
		}
	}
	return len(words) == 0
}

// figures asks the law.
func (l Law) figures(r Row) ([]Figure, error) {
	if l.Figures != nil {
		return l.Figures(r)
	}
	got, err := l.Got(r)
	if err != nil {
		return nil, err
	}
	allowed, ok := r.allowed()
	if !ok {
		return nil, &toleranceError{r.ID, r.Tolerance}
	}
	return []Figure{{Want: r.Want, Got: got, Allowed: allowed, Unit: r.Unit}}, nil
}

type toleranceError struct{ id, text string }

func (e *toleranceError) Error() string {
	return e.id + ": tolerance " + e.text + " cannot be read"
}

// unused is what an evaluator returns for a row that the program knowingly
// leaves aside, with the reason.
type unused string

func (u unused) Error() string { return string(u) }

// ids makes a condition of a list of rows.
func ids(list ...string) func(Row) bool {
	return func(r Row) bool {
		for _, id := range list {
			if r.ID == id {
				return true
			}
		}
		return false
	}
}

// of makes a condition of the first words of a quantity.
func of(words ...string) func(Row) bool {
	return func(r Row) bool { return begins(r.Quantity, words) }
}
