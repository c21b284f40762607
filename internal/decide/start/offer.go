package start

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"dropleg/engine/unit"
	"dropleg/internal/decide/route"
	"dropleg/internal/shop/catalog"
)

// Offered is what the five questions offer, for people to choose from. Figures in
// words are in the units asked for; the same stand beside them in SI.
type Offered struct {
	Machines []OfferedMachine `json:"machines"` // by what they deliver
	Tools    []OfferedTool    `json:"tools"`    // by their words
	Stocks   []OfferedStock   `json:"stocks"`   // those fit for air; the usual one first
	Walls    []Word           `json:"walls"`
	Climates []Word           `json:"climates"`
	Doors    []OfferedDoor    `json:"doors"`
	Units    []Word           `json:"units"`
	// Most is how many places and rows of tools one first plan holds.
	MostPlaces int `json:"most_places"`
	MostTools  int `json:"most_tools"`
}

// Word is a word of the answers and what people call it.
type Word struct {
	Word  string `json:"word"`
	Words string `json:"words"`
}

// OfferedMachine is a class of compressor.
type OfferedMachine struct {
	Item    string             `json:"item"`
	Words   string             `json:"words"`
	Figures string             `json:"figures"`
	FreeAir unit.FreeAir       `json:"free_air_m3_s"`
	At      unit.GaugePressure `json:"at_Pa_g"`
	CutIn   unit.GaugePressure `json:"cut_in_Pa_g"`
	CutOut  unit.GaugePressure `json:"cut_out_Pa_g"`
	Power   unit.Power         `json:"power_W"`
	Volume  unit.Volume        `json:"receiver_m3"`
}

// OfferedTool is a class of tool.
type OfferedTool struct {
	Item    string             `json:"item"`
	Words   string             `json:"words"`
	Figures string             `json:"figures"`
	FreeAir unit.FreeAir       `json:"free_air_m3_s"`
	At      unit.GaugePressure `json:"at_Pa_g"`
	Least   unit.GaugePressure `json:"least_Pa_g"`
	Most    unit.GaugePressure `json:"most_Pa_g,omitempty"`
	Share   float64            `json:"share"`
}

// OfferedStock is what lines may be made of.
type OfferedStock struct {
	Stock string   `json:"stock"`
	Words string   `json:"words"`
	Form  string   `json:"form"`
	Sizes []string `json:"sizes"`
	Limit string   `json:"limit,omitempty"` // what limits its use
}

// OfferedDoor is a kind of door with its usual size.
type OfferedDoor struct {
	Word
	Width  unit.Length `json:"width_m"`
	Height unit.Length `json:"height_m"`
}

// Offer is what the questions offer from a catalogue.
func Offer(shelf *catalog.Catalog, system unit.System) Offered {
	o := Offered{MostPlaces: mostPlaces, MostTools: mostTools}
	text := func(k unit.Kind, si float64) string { return system.Text(k, si, unit.Env{}) }
	for _, m := range machines(shelf) {
		o.Machines = append(o.Machines, OfferedMachine{
			Item: m.Machine, Words: m.Words, FreeAir: unit.FreeAir(m.FreeAir.Value), At: m.At, CutIn: m.CutIn, CutOut: m.CutOut, Power: m.Power, Volume: m.Receiver,
			Figures: fmt.Sprintf("%s at %s, in at %s, out at %s, receiver %s", text(unit.KindFlow, m.FreeAir.Value), text(unit.KindGauge, float64(m.At)),
				text(unit.KindGauge, float64(m.CutIn)), text(unit.KindGauge, float64(m.CutOut)), text(unit.KindVolume, float64(m.Receiver))),
		})
	}
	for _, t := range shelf.Tools() {
		o.Tools = append(o.Tools, OfferedTool{
			Item: t.Tool, Words: t.Words, FreeAir: unit.FreeAir(t.Flow.Value), At: t.At, Least: t.Least, Most: t.Most, Share: t.Share.Value,
			Figures: fmt.Sprintf("%s at %s, no less than %s", text(unit.KindFlow, t.Flow.Value), text(unit.KindGauge, float64(t.At)), text(unit.KindGauge, float64(t.Least))),
		})
	}
	slices.SortStableFunc(o.Tools, func(a, b OfferedTool) int { return cmp.Compare(a.Words, b.Words) })
	usually := route.UsualStock(string(system))
	for _, s := range shelf.Stocks() {
		if s.FitForAir == "no" || s.Form == "hose" {
			continue
		}
		row := OfferedStock{Stock: s.Stock, Words: s.Words, Form: s.Form, Sizes: s.Names()}
		if s.FitForAir == "limited" {
			row.Limit = s.Why
		}
		if s.Stock == usually {
			o.Stocks = append([]OfferedStock{row}, o.Stocks...)
		} else {
			o.Stocks = append(o.Stocks, row)
		}
	}
	o.Walls = wordsOf("brick", "block", "concrete", "timber-frame", "steel-frame", "plasterboard", "sheet")
	o.Climates = []Word{{"heated", "heated in winter"}, {"unheated", "as cold as outside"}}
	o.Doors = []OfferedDoor{{Word{"door", "door"}, doorWide, doorHigh}, {Word{"gate", "gate"}, gateWide, gateHigh}}
	o.Units = []Word{{string(unit.Metric), "metric"}, {string(unit.US), "feet, psi, cfm"}, {string(unit.Mixed), "metric, with psi beside bar"}}
	return o
}

// wordsOf are words that people use as they stand, but for the hyphen.
func wordsOf(all ...string) []Word {
	var out []Word
	for _, w := range all {
		out = append(out, Word{w, strings.ReplaceAll(w, "-", " ")})
	}
	return out
}
