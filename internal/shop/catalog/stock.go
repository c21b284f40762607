// CONTRACT: stocks, their sizes and ways of joining.

package catalog

import (
	"dropleg/engine/cite"
	"dropleg/engine/unit"
)

// Stock is what lines are made of and sold as.
type Stock struct {
	Stock        string         `json:"stock"`
	Also         []string       `json:"also,omitempty"` // other ids typed for it, folded: "hdpe-metric-sdr11"
	Words        string         `json:"words"`          // "copper tube type L, drawn"
	Material     string         `json:"material"`
	Joining      []string       `json:"joining"` // joint ids, the usual first
	Form         string         `json:"form"`    // "stick", "coil", "hose"
	Lengths      []unit.Length  `json:"lengths_m"`
	FitForAir    string         `json:"fit_for_air"`         // "yes", "no", "limited"
	Why          string         `json:"why,omitempty"`       // why not, or what limits it
	Authority    []cite.Ref     `json:"authority,omitempty"` // who says so
	Roughness    Span           `json:"roughness_m"`
	Used         *Span          `json:"roughness_used_m,omitempty"` // after years of use, where it is known
	Corners      string         `json:"corners"`                    // "elbow" or "sweep": how a corner of a run is made
	TakeOuts     string         `json:"take_outs,omitempty"`        // family of take-outs
	InsertBore   *Span          `json:"insert_bore,omitempty"`      // share of the bore left inside a fitting, where it narrows
	MaxTemp      *float64       `json:"max_C,omitempty"`            // never above
	SweepRadius  *float64       `json:"sweep_radii,omitempty"`      // least bend radius in outside diameters
	Temperatures []RatingFactor `json:"temperatures,omitempty"`     // rating factor by temperature where sizes give one rating
	Ratings      []Rating       `json:"ratings,omitempty"`          // that hold for all sizes, or for those they name
	Sizes        []Size         `json:"sizes"`
	cite.Ref
	Note string `json:"note,omitempty"`
}

// Span is a figure with its plausible range.
type Span struct {
	Value float64 `json:"value"`
	Low   float64 `json:"low"`
	High  float64 `json:"high"`
	cite.Ref
}

// RatingFactor multiplies a rating at a temperature; linear between, refused beyond.
type RatingFactor struct {
	TempC  float64 `json:"temp_C"`
	Factor float64 `json:"factor"`
	cite.Ref
}

// Size is one size of a stock.
type Size struct {
	Size      string      `json:"size"`
	Also      []string    `json:"also,omitempty"` // other names typed for it
	Outside   unit.Length `json:"outside_m"`
	Wall      unit.Length `json:"wall_m"`
	Bore      unit.Length `json:"bore_m"`
	Ratings   []Rating    `json:"ratings,omitempty"` // of this size alone
	Radius    unit.Length `json:"least_radius_m,omitempty"`
	Spacing   []Spacing   `json:"spacing,omitempty"`
	ThreadFor string      `json:"thread,omitempty"` // thread size that goes with it
	cite.Ref
}

// Rating is a working pressure by temperature: linear between its points, level
// below the first, refused beyond the last. Of all that apply the lowest governs.
type Rating struct {
	Of       string               `json:"of"`                // "line" or "joint": a line wants one of "line" to have a rating at all
	Basis    string               `json:"basis"`             // "tube wall, annealed", "soldered joint, 95-5 …"
	Joining  []string             `json:"joining,omitempty"` // ways of joining it speaks of; none: any
	Sizes    []string             `json:"sizes,omitempty"`   // sizes it speaks of; none: any
	TempC    []float64            `json:"temp_C"`
	Pressure []unit.GaugePressure `json:"pressure_kPa_g"`
	cite.Ref
}

// Spacing is the greatest distance between supports.
type Spacing struct {
	Direction string      `json:"direction"` // "horizontal", "vertical"
	Distance  unit.Length `json:"distance_m"`
	cite.Ref
}

// Joint is one way of joining.
type Joint struct {
	Joint string            `json:"joint"` // "solder", "thread", "press", "push-in", "compression", "collet", "plug", "none"
	Words map[string]string `json:"words"`
	Steps []string          `json:"steps,omitempty"`
	Tools []string          `json:"tools,omitempty"`
	Watch []string          `json:"watch,omitempty"` // what can go wrong
	cite.Ref
}
