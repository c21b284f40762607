// CONTRACT: threads, take-outs, materials and the turbulent factor.

package catalog

import (
	"dropleg/engine/cite"
	"dropleg/engine/unit"
)

// Thread is one size of a pipe thread.
type Thread struct {
	Kind      string      `json:"kind"` // "npt", "r"
	Size      string      `json:"size"`
	PerInch   float64     `json:"threads_per_inch"`
	Pitch     unit.Length `json:"pitch_m"`
	GaugeDia  unit.Length `json:"pitch_diameter_m"`    // NPT: E1 at the hand-tight plane; R: gauge diameter
	HandTight unit.Length `json:"hand_tight_m"`        // NPT: L1; R: gauge length
	Effective unit.Length `json:"effective_m"`         // NPT: L2; R: useful thread
	MakeUp    unit.Length `json:"make_up_m,omitempty"` // NPT: L1 and three turns
	cite.Ref
	Note string `json:"note,omitempty"`
}

// TakeOut is what a fitting takes off the centre-to-centre length.
type TakeOut struct {
	Family    string      `json:"family"`
	Kind      string      `json:"kind"`
	Size      string      `json:"size"` // "*": any size, by outside diameter
	CentreEnd unit.Length `json:"centre_to_end_m"`
	Insert    unit.Length `json:"insertion_m"`
	TakeOut   unit.Length `json:"take_out_m"`
	// Shares of the outside diameter that a rule for any size adds.
	PerOutside       float64 `json:"take_out_per_outside,omitempty"`
	InsertPerOutside float64 `json:"insertion_per_outside,omitempty"`
	cite.Ref
}

// Material holds what movement needs.
type Material struct {
	Material string      `json:"material"`
	Alpha    Span        `json:"alpha_1_K"`
	Modulus  *Span       `json:"modulus_Pa,omitempty"`   // none: depends on the build
	Stress   unit.Stress `json:"stress_Pa,omitempty"`    // allowable for expansion legs
	Leg      *Span       `json:"leg_constant,omitempty"` // C of leg = C·√(outside·growth), any one unit of length
	cite.Ref
	Note string `json:"note,omitempty"`
}

// TurbulentFactor is fT, the friction factor of full turbulence in clean steel, by size.
type TurbulentFactor struct {
	Size string      `json:"size"`
	Bore unit.Length `json:"bore_m"` // bore the row stands for
	FT   float64     `json:"fT"`
	cite.Ref
}
