package start

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"dropleg/engine/document"
	"dropleg/engine/geom"
	"dropleg/engine/unit"
	"dropleg/internal/decide/route"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// brief is the answers made complete: what was not said is assumed, in words.
type brief struct {
	Answers
	shelf   *catalog.Catalog
	machine catalog.Machine // what fills in the plate
	chosen  bool            // the machine was chosen here, and another may be
	tools   []catalog.Tool  // row of each answer
	names   []string        // of each, as the shop calls it
	bare    bool            // no filter bears the pressure
	stock   catalog.Stock
	said    []Assumption
	bad     []job.Finding
}

func (b *brief) refuse(path, read, want, nearest string) {
	b.bad = append(b.bad, finding("answer", document.Problem{Path: path, Read: read, Want: want, Nearest: nearest}))
}

// refusal is what is wrong, nil for nothing.
func (b *brief) refusal() error {
	if b.bad == nil {
		return nil
	}
	return &job.Refusal{Findings: b.bad}
}

// complete looks everything up in the catalogue.
func complete(a Answers, shelf *catalog.Catalog) *brief {
	b := &brief{Answers: a, shelf: shelf}
	for _, p := range document.Verify(&a) {
		b.bad = append(b.bad, finding("answer", p))
	}
	if b.Units == "" {
		b.Units = string(unit.Metric)
	}
	b.roomSize()
	b.lookUpStock()
	b.lookUpMachine()
	b.lookUpTools()
	b.placesWanted()
	return b
}

func (b *brief) roomSize() {
	r := &b.Room
	if r.Name == "" {
		r.Name = "Shop"
	}
	switch {
	case len(r.Outline) == 0 && (r.Width < 2 || r.Depth < 2):
		b.refuse("room.width_m", fmt.Sprintf("%s by %s", b.long(float64(r.Width)), b.long(float64(r.Depth))), "width and depth of the room, "+b.long(2)+" and more, or its outline_m", "")
	case len(r.Outline) > mostCorners:
		b.refuse("room.outline_m", fmt.Sprintf("%d corners", len(r.Outline)), fmt.Sprintf("at most %d", mostCorners), "")
	}
	if r.Height < lowest {
		b.refuse("room.height_m", b.long(float64(r.Height)), "a height of "+b.long(lowest)+" or more, so that the main hangs over heads", b.long(lowest))
	}
	if r.Climate == "" {
		r.Climate = "heated"
		b.assume("room.climate", "The room is heated: no line in it freezes.")
	}
	if r.Climate == "unheated" && r.Cold == nil {
		cold := unit.Celsius(coldC)
		r.Cold = &cold
		b.assume("room.cold_C", "Nobody said how cold it gets: %s is taken for the coldest night.", unit.System(b.Units).Text(unit.KindTemperature, float64(cold), unit.Env{}))
	}
	if r.Thickness == nil {
		t := usual(r.MadeOf)
		r.Thickness = &t
	}
}

func (b *brief) lookUpStock() {
	name := b.Stock
	skew := b.skew()
	if name == "" {
		if name = route.UsualStock(b.Units); skew {
			name = bentStock(b.Units)
		}
	}
	stock, ok := b.shelf.Stock(name)
	switch {
	case !ok:
		b.refuse("stock", fmt.Sprintf("%q", short(name)), "a stock of the catalogue", b.shelf.Nearest(catalog.Stocks, name))
		return
	case stock.FitForAir == "no":
		b.refuse("stock", stock.Words, "a stock that is fit for compressed air: "+stock.Why, route.UsualStock(b.Units))
		return
	}
	b.stock = stock
	switch {
	case b.Stock != "":
	case skew:
		b.assume("stock", "Lines are of %s, bent by hand: no elbow fits the corners of this room. Clip it close, so that it holds its fall.", stock.Words)
	default:
		b.assume("stock", "Lines are of %s; it comes in straight lengths, which hold the fall of the main.", stock.Words)
	}
}

// skew says whether a corner of the room turns by an angle that elbows do not make.
func (b *brief) skew() bool {
	const off = 2 * math.Pi / 180
	o := b.Room.Outline
	for i, c := range o {
		was, next := c.Minus(o[(i+len(o)-1)%len(o)]), o[(i+1)%len(o)].Minus(c)
		turn := geom.Angle(was.At(0), next.At(0))
		if !slices.ContainsFunc([]float64{0, math.Pi / 4, math.Pi / 2}, func(x float64) bool { return math.Abs(turn-x) < off }) {
			return true
		}
	}
	return false
}

func (b *brief) lookUpMachine() {
	c := &b.Compressor
	if c.Machine != "" {
		m, ok := b.shelf.Machine(c.Machine)
		if !ok {
			b.refuse("compressor.machine", fmt.Sprintf("%q", short(c.Machine)), "a class of compressor of the catalogue", b.shelf.Nearest(catalog.Machines, c.Machine))
		}
		b.machine = m
	} else {
		all := machines(b.shelf)
		if len(all) == 0 {
			b.refuse("compressor.machine", "a catalogue without compressors", "a class of compressor", "")
			return
		}
		b.machine, b.chosen = all[0], c.FreeAir == nil
		if c.FreeAir != nil {
			b.machine = nearestMachine(all, c)
		}
	}
	if c.FreeAir != nil && !(c.FreeAir.Value > 0) {
		b.refuse("compressor.free_air", "no flow", "the free air that the plate states, above 0", "")
	}
	if in, out := b.cutIn(), b.cutOut(); in >= out && b.machine.Machine != "" {
		b.refuse("compressor.cut_in_kPa_g", b.pressure(in), "less than the cut-out, "+b.pressure(out), b.pressure(out*4/5))
	}
}

func (b *brief) cutIn() unit.GaugePressure {
	switch c := &b.Compressor; {
	case c.CutIn != nil:
		return *c.CutIn
	case c.CutOut != nil:
		return max(*c.CutOut-(b.machine.CutOut-b.machine.CutIn), *c.CutOut/2)
	}
	return b.machine.CutIn
}

func (b *brief) cutOut() unit.GaugePressure {
	switch c := &b.Compressor; {
	case c.CutOut != nil:
		return *c.CutOut
	case c.CutIn != nil:
		return *c.CutIn + (b.machine.CutOut - b.machine.CutIn)
	}
	return b.machine.CutOut
}

func (b *brief) lookUpTools() {
	if len(b.Tools) > mostTools {
		b.refuse("tools", fmt.Sprintf("%d rows", len(b.Tools)), fmt.Sprintf("at most %d; tools alike go into one row by their count", mostTools), "")
		b.Tools = b.Tools[:mostTools]
	}
	for i, t := range b.Tools {
		row, ok := b.shelf.Tool(t.Item)
		if !ok {
			b.refuse(fmt.Sprintf("tools[%d].item", i), fmt.Sprintf("%q", short(t.Item)), "a class of tool of the catalogue", b.shelf.Nearest(catalog.Tools, t.Item))
		}
		b.tools = append(b.tools, row)
	}
	b.nameTools()
}

// nameTools calls each tool by the words of its class before their comma, which tell its kind;
// by all of them where that names two.
func (b *brief) nameTools() {
	kind := func(i int) string { word, _, _ := strings.Cut(b.tools[i].Words, ","); return titled(word) }
	for i, t := range b.Tools {
		name := t.Name
		if name == "" {
			name = kind(i)
			for k := range b.tools {
				if k != i && kind(k) == name {
					name = titled(b.tools[i].Words)
				}
			}
		}
		b.names = append(b.names, name)
	}
}

// placesWanted settles how many places there are, and that tools name them.
func (b *brief) placesWanted() {
	if len(b.Places) > 0 && b.Spread > 0 {
		b.refuse("spread", fmt.Sprint(b.Spread), "either places or their number", "")
	}
	if n := max(len(b.Places), b.Spread); n > mostPlaces {
		b.refuse("places", fmt.Sprintf("%d places", n), fmt.Sprintf("at most %d in a first plan", mostPlaces), fmt.Sprint(mostPlaces))
		return
	}
	if len(b.Places) == 0 && b.Spread == 0 {
		for _, t := range b.Tools {
			b.Spread += max(1, t.Count)
		}
		b.Spread = min(max(1, b.Spread), mostPlaces)
		b.assume("spread", "Nobody said where air is wanted: %s, evenly round the walls.", plural(b.Spread, "place"))
	}
	names := map[string]bool{}
	var list []string
	for i := range b.Places {
		p := &b.Places[i]
		if p.Name = strings.TrimSpace(p.Name); p.Name == "" || names[fold(p.Name)] {
			b.refuse(fmt.Sprintf("places[%d].name", i), fmt.Sprintf("%q", short(p.Name)), "a name of its own", fmt.Sprintf("Place %d", i+1))
		}
		names[fold(p.Name)], list = true, append(list, p.Name)
	}
	for i := range b.Spread {
		list = append(list, spreadName(i))
		names[fold(spreadName(i))] = true
	}
	for i, t := range b.Tools {
		for k, at := range t.At {
			if !names[fold(at)] {
				b.refuse(fmt.Sprintf("tools[%d].at[%d]", i, k), fmt.Sprintf("%q", short(at)), "the name of a place", unit.Nearest(at, list))
			}
		}
	}
}

func spreadName(i int) string { return fmt.Sprintf("Place %d", i+1) }

func fold(s string) string { return strings.ToLower(strings.TrimSpace(s)) }

// short is a text as it may stand in a message.
func short(s string) string {
	if r := []rune(s); len(r) > 60 {
		return string(r[:59]) + "…"
	}
	return s
}
