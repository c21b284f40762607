package job

import "dropleg/engine/unit"

// Record is something done, measured or seen: dated, signed, tied to ids.
type Record struct {
	ID      ID       `json:"id" doc:"record.…"`
	When    string   `json:"when" doc:"RFC 3339"`
	By      string   `json:"by,omitempty"`
	Kind    string   `json:"kind" enum:"reading,joint,test,upkeep,change,note"`
	About   []ID     `json:"about,omitempty"`
	Joint   string   `json:"joint,omitempty" doc:"point and port: \"point.tee-3/branch\""`
	Found   string   `json:"found,omitempty" doc:"\"tight\", \"bubbles\", …"`
	Reading *Reading `json:"reading,omitempty"`
	Text    string   `json:"text,omitempty"`
	Photo   string   `json:"photo,omitempty"`
}

// Reading is one measurement, with the receiver's pressure at the same moment where it was read.
type Reading struct {
	Pressure *unit.GaugePressure `json:"pressure_kPa_g,omitempty" min:"-101" max:"10000"`
	Receiver *unit.GaugePressure `json:"receiver_kPa_g,omitempty" min:"-101" max:"10000"`
	Running  []InUse             `json:"running,omitempty" doc:"what ran meanwhile"`
	Time     *unit.Duration      `json:"time_s,omitempty" min:"0"`
	Temp     *unit.Temperature   `json:"temperature_C,omitempty" min:"-90" max:"100"`
	From     *unit.GaugePressure `json:"from_kPa_g,omitempty" min:"-101" max:"10000"`
	To       *unit.GaugePressure `json:"to_kPa_g,omitempty" min:"-101" max:"10000"`
}
