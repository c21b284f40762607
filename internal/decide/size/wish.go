package size

import (
	"time"

	"dropleg/engine/unit"
	"dropleg/internal/shop/job"
)

// Wish is what is asked for.
type Wish struct {
	// Keep leaves what is installed as it is.
	Keep bool
	// Only names what may change, lines, hoses, outlets; none: everything.
	Only []job.ID
	// Growth adds a share to all flows; Reserve adds to the pressure that each tool wants.
	Growth  float64
	Reserve unit.PressureDiff
	// AsFar: where no size gives a tool its pressure, it is to have what the largest give it,
	// and that is told, in place of a NoneError.
	AsFar bool
	// Alternatives asks for more proposals beside the cheapest: more reserve, more growth.
	Alternatives bool
	// Steps asks what one size larger of each choice would cost and bring.
	Steps bool
	// Limit ends picking with the best so far; 0: none.
	Limit time.Duration
	// Seed draws the days by which the chance of enough is held; 0: one that nobody else uses.
	Seed uint64
	// System is that of the words.
	System unit.System
}

// Proposal is sizes that do.
type Proposal struct {
	Name  string   `json:"name"`
	Words string   `json:"words"`
	Edit  job.Edit `json:"-"`
	// Edits is the edit as it is written.
	Edits   []job.EditForm `json:"edits"`
	Changes []Change       `json:"changes"`
	// Price is of all choices as they come out and what they meet in, with the hours for it
	// where an hour has a price, by the prices of the job; Was is the same as they stand. Where
	// it states no prices, both are metres times millimetres of bore.
	Price  float64 `json:"price"`
	Was    float64 `json:"was"`
	Priced bool    `json:"priced"`
	// Clips is what Price less Was leaves out of what bought and done it comes to more: where
	// clips sit hangs on the sizes of the lines beside theirs too.
	Clips float64 `json:"clips"`
	// Bound: by the rated flows no selection costs less. Proven: it is the price itself.
	Bound  float64 `json:"bound"`
	Proven bool    `json:"proven"`
	How    string  `json:"how"` // by what the bound holds
	// Tools is the least pressure of each tool, with flows that follow pressure.
	Tools []Tool `json:"tools"`
	// Short is the most that any tool goes short in the days drawn, a share of its time;
	// nil where days tell nothing.
	Short    *float64 `json:"short,omitempty"`
	Rounds   int      `json:"rounds"` // picks until the flows that follow pressure held
	Notes    []string `json:"notes"`
	Steps    []Step   `json:"steps,omitempty"`
	Verified bool     `json:"verified"`
}

// Gap is by how much of the price a cheaper selection might be, at most.
func (p *Proposal) Gap() float64 {
	if p.Price <= 0 {
		return 0
	}
	return max(0, (p.Price-p.Bound)/p.Price)
}

// Change is one choice that comes out as another size.
type Change struct {
	IDs   []job.ID `json:"ids"`
	Words string   `json:"words"`
	From  string   `json:"from"`
	To    string   `json:"to"`
	Price float64  `json:"price"` // more than as it stands
}

// Tool is the least pressure of a tool.
type Tool struct {
	Tool     job.ID             `json:"tool"`
	Outlet   job.ID             `json:"outlet"`
	Pressure unit.GaugePressure `json:"pressure_Pa_g"`
	Least    unit.GaugePressure `json:"least_Pa_g"`
	Set      string             `json:"set"` // in which it has that
}

// Step is one size larger of a choice.
type Step struct {
	IDs   []job.ID `json:"ids"`
	Words string   `json:"words"`
	To    string   `json:"to"`
	Price float64  `json:"price"`
	// Brings is what the tool that has least to spare gains by it.
	Brings unit.PressureDiff `json:"brings_Pa"`
}
