package scene

import (
	"bufio"
	"fmt"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
)

// unitsPerMetre: one unit of a DXF drawing is a millimetre of the shop.
const unitsPerMetre = 1000

// WriteDXF writes a drawing in true size, one unit to the millimetre, as DXF of release 12
// (AC1009), which every reader of DXF knows: a layer to each layer of the scene, line types
// for its dashes, polylines with their widths, arcs, texts. Texts, widths and symbols have the
// size that they have on paper at scale, in mm of paper to the metre. The same scene gives
// the same bytes. Fills are left out; hatching is lines.
func WriteDXF(w io.Writer, s Scene, scale float64) error {
	p := dxfWriter{w: bufio.NewWriter(w), perMM: unitsPerMetre / scale, dashes: dashesOf(s)}
	p.pair(999, "dropleg: true size, 1 drawing unit = 1 mm")
	p.begin("HEADER")
	p.pairs(9, "$ACADVER", 1, "AC1009", 9, "$DWGCODEPAGE", 3, "ANSI_1252", 9, "$INSBASE", 10, 0.0, 20, 0.0, 30, 0.0)
	p.pairs(9, "$EXTMIN", 10, s.Min[0]*unitsPerMetre, 20, s.Min[1]*unitsPerMetre, 30, 0.0)
	p.pairs(9, "$EXTMAX", 10, s.Max[0]*unitsPerMetre, 20, s.Max[1]*unitsPerMetre, 30, 0.0)
	p.pairs(9, "$LTSCALE", 40, 1.0, 9, "$MEASUREMENT", 70, 1, 9, "$LUNITS", 70, 2)
	p.pairs(0, "ENDSEC")
	p.tables(s)
	p.begin("ENTITIES")
	for i := range s.Layers {
		p.layer = layerName(&s.Layers[i])
		for k := range s.Layers[i].Items {
			p.item(&s.Layers[i].Items[k])
		}
	}
	p.layer = "NOTES"
	p.words(Point{s.Min[0], s.Min[1]}, Point{0, -6}, 2.5, 0, "", "ink", s.Title+". True size: 1 drawing unit = 1 mm.")
	p.pairs(0, "ENDSEC", 0, "EOF")
	if err := p.w.Flush(); err != nil {
		return fmt.Errorf("writing the DXF: %w", err)
	}
	return nil
}

// dxfWriter keeps the first write error inside its bufio.Writer.
type dxfWriter struct {
	w      *bufio.Writer
	perMM  float64 // drawing units to the mm of paper
	layer  string
	dashes []string // of the line types, in their order
}

// pair writes a group: its code and its value.
func (p *dxfWriter) pair(code int, value any) {
	text := ""
	switch v := value.(type) {
	case string:
		text = v
	case int:
		text = strconv.Itoa(v)
	case float64:
		text = strconv.FormatFloat(math.Round(v*1e4)/1e4, 'f', -1, 64)
		if text == "-0" {
			text = "0"
		}
	}
	_, _ = p.w.WriteString(strconv.Itoa(code) + "\r\n" + text + "\r\n") // Flush tells the error
}

func (p *dxfWriter) pairs(list ...any) {
	for i := 0; i+1 < len(list); i += 2 {
		p.pair(list[i].(int), list[i+1])
	}
}

func (p *dxfWriter) begin(section string) { p.pairs(0, "SECTION", 2, section) }

// tables are line types, layers and the style of texts.
func (p *dxfWriter) tables(s Scene) {
	p.begin("TABLES")
	p.pairs(0, "TABLE", 2, "LTYPE", 70, len(p.dashes)+1)
	p.pairs(0, "LTYPE", 2, "CONTINUOUS", 70, 0, 3, "Solid line", 72, 65, 73, 0, 40, 0.0)
	for i, d := range p.dashes {
		lengths, sum := strings.Fields(d), 0.0
		var groups []any
		for k, text := range lengths {
			v, _ := strconv.ParseFloat(text, 64) // written by dashName
			v *= p.perMM
			sum += v
			if k%2 == 1 {
				v = -v
			}
			groups = append(groups, 49, v)
		}
		p.pairs(0, "LTYPE", 2, "DASH"+strconv.Itoa(i+1), 70, 0, 3, "Dashes "+d+" mm", 72, 65, 73, len(lengths), 40, sum)
		p.pairs(groups...)
	}
	p.pairs(0, "ENDTAB")
	names := []string{"0", "NOTES"}
	for i := range s.Layers {
		if name := layerName(&s.Layers[i]); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	p.pairs(0, "TABLE", 2, "LAYER", 70, len(names))
	for _, name := range names {
		p.pairs(0, "LAYER", 2, name, 70, 0, 62, 7, 6, "CONTINUOUS")
	}
	p.pairs(0, "ENDTAB", 0, "TABLE", 2, "STYLE", 70, 1)
	p.pairs(0, "STYLE", 2, "STANDARD", 70, 0, 40, 0.0, 41, 1.0, 50, 0.0, 71, 0, 42, 2.5, 3, "txt", 4, "")
	p.pairs(0, "ENDTAB", 0, "ENDSEC")
}

// layerName is a layer's id in the letters that release 12 allows.
func layerName(l *Layer) string {
	name := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z':
			return r - 'a' + 'A'
		case r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			return r
		}
		return '_'
	}, l.ID)
	if name == "" {
		return "0"
	}
	return name[:min(len(name), 31)]
}

// dashName writes a dash with a gap behind each stroke, in mm.
func dashName(dash []float64) string {
	if len(dash)%2 == 1 {
		dash = append(slices.Clone(dash), dash...)
	}
	words := make([]string, len(dash))
	for i, v := range dash {
		words[i] = mm(v)
	}
	return strings.Join(words, " ")
}

// dashesOf lists the dashes of a drawing in the order in which they come.
func dashesOf(s Scene) []string {
	var all []string
	add := func(stroke *Stroke) {
		if stroke == nil || len(stroke.Dash) == 0 {
			return
		}
		if name := dashName(stroke.Dash); !slices.Contains(all, name) {
			all = append(all, name)
		}
	}
	for i := range s.Layers {
		for k := range s.Layers[i].Items {
			switch it := &s.Layers[i].Items[k]; {
			case it.Line != nil:
				add(&it.Line.Stroke)
			case it.Area != nil:
				add(it.Area.Stroke)
			case it.Arc != nil:
				add(&it.Arc.Stroke)
			case it.Mark != nil:
				for _, part := range it.Mark.Parts {
					add(part.Stroke)
				}
			}
		}
	}
	return all
}
