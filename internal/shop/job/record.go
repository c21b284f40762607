package job

import "dropleg/engine/unit"

// Record is something done, measured or seen: dated, signed, tied to ids.
type Record struct {
	ID      ID       `json:"id" doc:"record.…"`
	When    string   `json:"when" doc:"RFC 3339"`
	By      string   `json:"by,omitempty"`
	Kind    string   `json:"kind" enum:"reading,joint,test,build,upkeep,change,note"`
	About   []ID     `json:"about,omitempty"`
	Joint   string   `json:"joint,omitempty" doc:"point and port: \"point.tee-3/branch\""`
	Found   string   `json:"found,omitempty" doc:"\"tight\", \"bubbles\", \"mended\", …; of a thing looked at \"mended\", \"replaced\" or \"sound\""`
	Reading *Reading `json:"reading,omitempty"`
	Text    string   `json:"text,omitempty"`
	Photo   string   `json:"photo,omitempty" doc:"a picture of the job, by its name in the store"`
	Task    string   `json:"task,omitempty" doc:"of the order of work or of the upkeep: \"cut line.main-2/piece-1\", \"drain point.receiver\"; \"complaint\" and \"looked-at\" where a fault is looked for"`
	Test    *Test    `json:"test,omitempty"`
	Used    []string `json:"used,omitempty" doc:"parts that were used up"`
	Cost    *float64 `json:"cost,omitempty" min:"0" doc:"what it cost, in the site's currency"`
	// Back, After and Device keep an append-only log true: nothing is changed, a later
	// record takes an earlier one back, and two devices may write without knowing of
	// each other.
	Back   ID     `json:"takes_back,omitempty" doc:"the record that this one takes back"`
	After  []ID   `json:"after,omitempty" doc:"the newest records on the same thing that its author had seen"`
	Device string `json:"device,omitempty" doc:"what wrote it; records of one device are in order"`
}

// LookedAt is the task of a note that says what a look at a thing showed.
const LookedAt = "looked-at"

// What a look at a thing shows. From then on it is right in each case.
const (
	Mended   = "mended"   // it was wrong
	Replaced = "replaced" // nobody knows what it was
	Sound    = "sound"    // nothing was wrong with it
)

// Renews says whether a record tells of a thing put right: what was read before tells of
// another shop.
func (r *Record) Renews() bool {
	return r.Task == LookedAt && (r.Found == Mended || r.Found == Replaced)
}

// TakenBack are the records that were taken back, and those that did so.
func (j *Job) TakenBack() map[ID]bool {
	back := map[ID]bool{}
	for i := range j.Records {
		if r := &j.Records[i]; r.Back != "" {
			back[r.Back], back[r.ID] = true, true
		}
	}
	return back
}

// Test is a test of a section, or of all of it, as it was made.
type Test struct {
	Way     string             `json:"way" enum:"pressure,decay,on-off,bleed-down"`
	Section string             `json:"section,omitempty" doc:"as the plan of tests names it"`
	Samples []Sample           `json:"samples,omitempty"`
	Gauge   *unit.PressureDiff `json:"gauge_kPa,omitempty" min:"0" max:"1000" doc:"what a reading of the gauge is good to, plus or minus"`
	Thermo  *unit.TempDiff     `json:"thermometer_K,omitempty" min:"0" max:"50" doc:"what a reading of the thermometer is good to"`
	// Loads and Rests are how long the compressor ran and stood, by turns, while nothing
	// was drawn.
	Loads []unit.Duration `json:"loads_s,omitempty" min:"0" max:"1000000"`
	Rests []unit.Duration `json:"rests_s,omitempty" min:"0" max:"1000000"`
}

// Sample is one reading of a shut section.
type Sample struct {
	Time     unit.Duration      `json:"time_s" min:"0" max:"10000000" doc:"since the first"`
	Pressure unit.GaugePressure `json:"pressure_kPa_g" min:"-101" max:"10000"`
	Temp     *unit.Temperature  `json:"temperature_C,omitempty" min:"-90" max:"100"`
}

// Reading is one measurement, with the receiver's pressure at the same moment where it was read.
type Reading struct {
	Pressure *unit.GaugePressure `json:"pressure_kPa_g,omitempty" min:"-101" max:"10000"`
	Receiver *unit.GaugePressure `json:"receiver_kPa_g,omitempty" min:"-101" max:"10000"`
	Running  []InUse             `json:"running,omitempty" doc:"what ran meanwhile"`
	Shut     []ID                `json:"shut,omitempty" doc:"valves that were shut meanwhile"`
	Stopped  bool                `json:"stopped,omitempty" doc:"the compressor was stopped meanwhile and the receiver let down"`
	Time     *unit.Duration      `json:"time_s,omitempty" min:"0"`
	Starts   *float64            `json:"starts_per_h,omitempty" min:"0" max:"1000" doc:"how often the compressor began to load in an hour"`
	Temp     *unit.Temperature   `json:"temperature_C,omitempty" min:"-90" max:"100"`
	From     *unit.GaugePressure `json:"from_kPa_g,omitempty" min:"-101" max:"10000"`
	To       *unit.GaugePressure `json:"to_kPa_g,omitempty" min:"-101" max:"10000"`
	Dew      *unit.Temperature   `json:"pressure_dew_point_C,omitempty" min:"-100" max:"100"`
	Water    *unit.Volume        `json:"water_L,omitempty" min:"0" max:"10000" doc:"that came out of a drain in Time"`
	Hours    *float64            `json:"running_h,omitempty" min:"0" max:"1000000" doc:"what the compressor's meter of hours shows"`
}
