package job

import "dropleg/engine/unit"

// Tool is anything that uses air.
type Tool struct {
	ID       ID                  `json:"id" doc:"tool.…"`
	Name     string              `json:"name"`
	Item     string              `json:"item,omitempty" doc:"catalogue tool that fills in what is not stated"`
	Flow     *Flow               `json:"flow,omitempty" doc:"while running, at At"`
	At       *unit.GaugePressure `json:"at_kPa_g,omitempty" min:"0" max:"10000"`
	Nozzle   *unit.Length        `json:"nozzle_mm,omitempty" above:"0" max:"100"`
	Constant bool                `json:"constant,omitempty"`
	Least    *unit.GaugePressure `json:"least_kPa_g,omitempty" min:"0" max:"10000"`
	Most     *unit.GaugePressure `json:"most_kPa_g,omitempty" above:"0" max:"10000"`
	Plug     string              `json:"plug,omitempty"`
	Share    *unit.Ratio         `json:"share,omitempty" min:"0" max:"1"`
	Burst    *unit.Duration      `json:"burst_s,omitempty" above:"0" max:"1000000"`
	Hours    string              `json:"hours,omitempty" doc:"clock times at which it runs, 9:00-9:20, 14:00-15:00; else it comes and goes by chance"`
	Water    string              `json:"water_class,omitempty"`
	Oil      string              `json:"oil_class,omitempty"`
	Particle string              `json:"particle_class,omitempty"`
	NotWith  []ID                `json:"not_with,omitempty"`
	With     []ID                `json:"with,omitempty" doc:"always runs with these"`
	Count    int                 `json:"count,omitempty" min:"0" max:"10000" doc:"how many alike; default 1"`
	Later    bool                `json:"later,omitempty" doc:"not here yet: counted for growth only"`
	Note     string              `json:"note,omitempty"`
}
