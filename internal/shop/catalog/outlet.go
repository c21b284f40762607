// CONTRACT: what is plugged in: couplers, tools, hoses.

package catalog

import (
	"dropleg/engine/cite"
	"dropleg/engine/unit"
)

// Coupler is one interchange profile in one body size: a socket and its plug as a pair.
type Coupler struct {
	Coupler string             `json:"coupler"`        // "industrial-1/4"
	Also    []string           `json:"also,omitempty"` // other names of the same profile and size
	Words   string             `json:"words"`
	Profile string             `json:"profile"`
	Body    string             `json:"body"`
	Bore    unit.Length        `json:"bore_m,omitempty"`
	C       unit.Conductance   `json:"C_m3_s_Pa"`
	CLow    unit.Conductance   `json:"C_low_m3_s_Pa"`
	CHigh   unit.Conductance   `json:"C_high_m3_s_Pa"`
	B       float64            `json:"b"`
	Rating  unit.GaugePressure `json:"rating_kPa_g"`
	// SocketOnly: there is no plug of this profile.
	SocketOnly bool `json:"socket_only,omitempty"`
	cite.Ref
	Note string `json:"note,omitempty"`
}

// Mate says whether a plug of one profile goes into a socket of another.
type Mate struct {
	Socket string `json:"socket"` // coupler id, or a profile with "-*"
	Plug   string `json:"plug"`
	Mates  string `json:"mates"` // "yes", "no", "looks-like" (seems to, and may let go)
	cite.Ref
}

// Tool is a typical tool of a class; figures are ranges because sources differ two to one.
type Tool struct {
	Tool       string             `json:"tool"`
	Words      string             `json:"words"`
	Flow       Span               `json:"free_air_m3_s"`        // while running, at At
	At         unit.GaugePressure `json:"at_kPa_g"`             // pressure at the tool's inlet for that flow
	Nozzle     unit.Length        `json:"nozzle_m,omitempty"`   // open nozzle instead of a rated flow
	Constant   bool               `json:"constant,omitempty"`   // takes its flow whatever the pressure (within its range)
	Least      unit.GaugePressure `json:"least_kPa_g"`          // least working pressure at the tool's inlet
	Most       unit.GaugePressure `json:"most_kPa_g,omitempty"` // never above
	Share      Span               `json:"share"`                // share of working time in use
	Burst      unit.Duration      `json:"burst_s"`
	Water      string             `json:"water_class,omitempty"` // ISO 8573-1 class wanted
	Oil        string             `json:"oil_class,omitempty"`
	Particles  string             `json:"particle_class,omitempty"`
	NoOil      bool               `json:"no_lubricator,omitempty"` // paint and the like
	Lubricated bool               `json:"wants_oil,omitempty"`
	Unheld     bool               `json:"unregulated,omitempty"` // by custom fed before any regulator
	cite.Ref
	Note string `json:"note,omitempty"`
}

// Hose is a typical hose: bore by size; length comes from the job.
type Hose struct {
	Hose      string             `json:"hose"`
	Line      string             `json:"line,omitempty"` // what all sizes of it are called together: "hose-rubber"
	Words     string             `json:"words"`
	Size      string             `json:"size"`
	Also      []string           `json:"also,omitempty"`
	Bore      unit.Length        `json:"bore_m"`
	Outside   unit.Length        `json:"outside_m"`
	Roughness Span               `json:"roughness_m"`
	EndBore   Span               `json:"end_bore"` // share of the bore left in its tails
	Radius    unit.Length        `json:"least_radius_m,omitempty"`
	Rating    unit.GaugePressure `json:"rating_kPa_g"`
	MaxTemp   float64            `json:"max_C"`
	cite.Ref
}
