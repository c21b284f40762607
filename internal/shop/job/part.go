package job

import "dropleg/engine/unit"

// Part is one part: of a catalogue kind, with what this one needs to have stated.
// The same form serves at points and in the hardware that hangs at an outlet.
type Part struct {
	ID    ID     `json:"id,omitempty" doc:"part.…; only for parts that hang at an outlet"`
	Kind  string `json:"kind" doc:"catalogue kind; \"\" is \"joint\", a plain place on a line"`
	Item  string `json:"item,omitempty" doc:"catalogue row that fills in figures (coupler, treatment, machine)"`
	Size  string `json:"size,omitempty" doc:"default: the size of the run at its first port"`
	Size2 string `json:"branch_size,omitempty"`
	Shut  bool   `json:"shut,omitempty" doc:"an isolating valve that stands shut"`
	Wear  string `json:"condition,omitempty" enum:"clean,loaded" doc:"as found; default by the case asked"`

	Set        *unit.GaugePressure `json:"set_kPa_g,omitempty" min:"0" max:"10000" doc:"regulator or relief setting, cracking of a check valve"`
	Rating     *unit.GaugePressure `json:"rating_kPa_g,omitempty" above:"0" max:"50000" doc:"as stamped"`
	Flow       *Flow               `json:"rated_flow,omitempty" doc:"rated flow of a treatment part"`
	At         *unit.GaugePressure `json:"rated_at_kPa_g,omitempty" min:"0" max:"10000"`
	Clean      *unit.PressureDiff  `json:"clean_kPa,omitempty" min:"0" max:"1000"`
	Loaded     *unit.PressureDiff  `json:"loaded_kPa,omitempty" min:"0" max:"1000"`
	Found      *unit.PressureDiff  `json:"found_kPa,omitempty" above:"0" max:"1000" doc:"loss at rated flow as readings found it; overrides condition"`
	C          *unit.Conductance   `json:"C_m3_s_Pa,omitempty" above:"0" max:"0.01" doc:"maker's figure, overrides the catalogue"`
	B          *unit.Ratio         `json:"b,omitempty" min:"0" max:"1"`
	K          *unit.Ratio         `json:"K,omitempty" min:"0" max:"1e6"`
	Droop      *unit.PressureDiff  `json:"droop_kPa,omitempty" min:"0" max:"1000"`
	DewPoint   *unit.Temperature   `json:"pressure_dew_point_C,omitempty" min:"-120" max:"100"`
	Particle   string              `json:"particle_class,omitempty" enum:"0,1,2,3,4,5,6,7,X" doc:"ISO 8573-1, as its maker claims"`
	Oil        string              `json:"oil_class,omitempty" enum:"0,1,2,3,4,X" doc:"ISO 8573-1, as its maker claims"`
	Desiccant  *unit.Mass          `json:"desiccant_kg,omitempty" above:"0" max:"10000" doc:"filling of a cartridge that is changed when spent"`
	Volume     *unit.Volume        `json:"volume_L,omitempty" above:"0" max:"1000000" doc:"receiver"`
	Compressor *Compressor         `json:"compressor,omitempty"`
	Note       string              `json:"note,omitempty"`
}

// Flow is a flow as it stood on a plate, with its reference: kept as read, converted when used.
type Flow struct {
	Value     float64 `json:"m3_s" min:"0" max:"100"`
	Reference string  `json:"reference,omitempty" enum:"iso1217,iso8778,normal,scfm60,scfm68d,scfm68h,scfm70,site" doc:"empty: the site's flow_reference"`
	Read      string  `json:"read,omitempty" doc:"the text on the plate, \"18 cfm at 90 psi\""`
}
