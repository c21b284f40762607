// CONTRACT: findings live beside edits because cures are edits.

package job

import (
	"dropleg/engine/cite"
	"dropleg/engine/geom"
)

// Severity says how bad a finding is.
type Severity string

// The severities, worst first.
const (
	Danger  Severity = "danger"  // can hurt people
	Fault   Severity = "fault"   // the design falls short
	Caution Severity = "caution" // likely to give trouble
	Note    Severity = "note"    // worth knowing
)

// Finding is one result of checking a design.
type Finding struct {
	Code     string      `json:"code"` // "short-of-pressure"
	Severity Severity    `json:"severity"`
	Title    string      `json:"title"`           // one sentence with its figures, in the person's units
	Why      string      `json:"why"`             // one sentence
	Where    []ID        `json:"where,omitempty"` // the things concerned, the first leads
	Place    *geom.Point `json:"place_m,omitempty"`
	Figure   *Figure     `json:"figure,omitempty"`
	Limit    *Figure     `json:"limit,omitempty"`
	Law      string      `json:"law,omitempty"`
	Source   []cite.Ref  `json:"source,omitempty"`
	Shares   []Share     `json:"shares,omitempty"` // elements that take most, ranked
	Cures    []Cure      `json:"cures,omitempty"`
	Range    *[2]float64 `json:"range,omitempty"` // plausible range of the figure, SI

	// The rest stands where the document itself is at fault (Path is then never
	// empty, "job" standing for the whole).
	Path    string `json:"path,omitempty"` // "net.runs[3] (line.main-2).size"
	Line    int    `json:"line,omitempty"` // of the text, where it is at hand
	Read    string `json:"read,omitempty"`
	Want    string `json:"want,omitempty"`
	Nearest string `json:"nearest,omitempty"`
}

// Figure is a number in SI with the key that names its quantity and unit.
type Figure struct {
	Key   string  `json:"key"` // "pressure_Pa_g"
	Value float64 `json:"value"`
}

// Share is one element's part in a loss.
type Share struct {
	ID     ID      `json:"id"`
	Words  string  `json:"words"` // "hose 1/4 in, 10 m"
	LossPa float64 `json:"loss_Pa"`
}

// Cure is an edit, or several, that was tried on the design and found to help.
type Cure struct {
	Words    string     `json:"words"` // "3/8 in hose instead of 1/4 in"
	Edits    []EditForm `json:"edits"`
	GainPa   *float64   `json:"gain_Pa,omitempty"`
	Price    *float64   `json:"price,omitempty"`
	Cures    bool       `json:"cures"`    // alone it takes the finding away
	Verified bool       `json:"verified"` // solved again, and nobody else became short by it
}

// Usable says whether a job with these findings can be computed: none of them is
// a fault of the document. Findings on the design do not count.
func Usable(found []Finding) bool {
	for i := range found {
		if found[i].Path != "" && found[i].Severity == Fault {
			return false
		}
	}
	return true
}
