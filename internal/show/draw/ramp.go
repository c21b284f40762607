package draw

import (
	"math"
	"strconv"

	"dropleg/engine/unit"
	"dropleg/internal/show/scene"
)

// bands is how many steps the pressure ramp has: as many as people tell apart
// by colour and by how hollow the line is.
const bands = 6

// Ramp turns pressures into bands. Band 0 is the highest: a full line in the
// first colour; each lower band is hollower and in the next colour, so that the
// band is seen without seeing colours.
type Ramp struct {
	// Top is the upper edge of band 0 and Step the height of a band, both in Pa.
	Top, Step float64
	Known     bool
}

// Band is one row of the legend.
type Band struct {
	Color  string    `json:"color"`
	Hollow []float64 `json:"hollow_mm,omitempty"` // dashes of the light core; empty: a full line
	Words  string    `json:"words"`
}

// hollows are the dashes of the light core in mm, by band: dot by dot, then open.
func hollow(band int) []float64 {
	return [bands][]float64{nil, {0.7, 8}, {0.8, 3.6}, {1.8, 2.2}, {3.2, 1.1}, {100, 0}}[band]
}

// steps are the heights of a band that read well, in the person's unit: psi or bar.
func stepFor(span float64, system unit.System) float64 {
	one, choices := 1e5, []float64{0.1, 0.2, 0.5, 1, 2}
	if system == unit.US {
		one, choices = psi, []float64{2, 5, 10, 20, 30}
	}
	for _, c := range choices {
		// One band is kept back, because edges fall on round figures.
		if c*one*(bands-1) >= span {
			return c * one
		}
	}
	return math.Ceil(span/(bands-1)/one) * one
}

// leastSpan is the least range in Pa that the bands are spread over.
const leastSpan = 0.9e5

// psi in Pa (nist-sp811), only for where band edges lie.
const psi = 6894.757293168

// newRamp lays the bands over the pressures given.
//
// A whole shop that loses next to nothing is drawn in one or two colours: below
// leastSpan nothing is worth telling apart.
func newRamp(pressures []float64, system unit.System) Ramp {
	low, high := math.Inf(1), math.Inf(-1)
	for _, p := range pressures {
		if finite(p) {
			low, high = min(low, p), max(high, p)
		}
	}
	if low > high {
		return Ramp{}
	}
	step := stepFor(max(high-low, leastSpan), system)
	return Ramp{Top: math.Ceil(high/step-1e-6) * step, Step: step, Known: true}
}

// band of a pressure; below the last edge counts to the last band.
func (r Ramp) band(p float64) int {
	return min(max(int(math.Floor((r.Top-p)/r.Step)), 0), bands-1)
}

// legend gives the bands that occur between the highest and the lowest pressure drawn.
func (r Ramp) legend(lowest float64, s Sheet) []Band {
	if !r.Known {
		return []Band{}
	}
	rows := []Band{}
	for i := range r.band(lowest) + 1 {
		high, low := r.Top-float64(i)*r.Step, r.Top-float64(i+1)*r.Step
		rows = append(rows, Band{
			Color: rampColor(i), Hollow: hollow(i),
			Words: s.short(unit.KindGauge, low) + " to " + s.plain(unit.KindGauge, high),
		})
	}
	return rows
}

func rampColor(band int) string { return "ramp-" + strconv.Itoa(band) }

// cut parts a run at the edges of the bands: pressure falls evenly along a run
// of one size, near enough for colouring. It returns the shares of the length
// at which a new band begins, starting with 0, and the band of each part.
func (r Ramp) cut(p0, p1 float64) (at []float64, band []int) {
	at, band = []float64{0}, []int{r.band(p0)}
	if math.Abs(p1-p0) < 1 {
		return at, band
	}
	down := 1
	if p1 > p0 {
		down = -1
	}
	for b := band[0]; b != r.band(p1); b += down {
		edge := r.Top - float64(b+1)*r.Step
		if down < 0 {
			edge = r.Top - float64(b)*r.Step
		}
		at = append(at, min(max((edge-p0)/(p1-p0), 0), 1))
		band = append(band, b+down)
	}
	return at, band
}

// between gives the part of a polyline from share t0 to share t1 of its length.
func between(line []scene.Point, t0, t1 float64) []scene.Point {
	total := 0.0
	for i := 1; i < len(line); i++ {
		total += math.Hypot(line[i][0]-line[i-1][0], line[i][1]-line[i-1][1])
	}
	var out []scene.Point
	along := 0.0
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		d := math.Hypot(b[0]-a[0], b[1]-a[1])
		if d == 0 {
			continue
		}
		s0, s1 := max(t0*total-along, 0)/d, min((t1*total-along)/d, 1)
		if s1 > s0 {
			p, q := mix(a, b, s0), mix(a, b, s1)
			if len(out) == 0 || out[len(out)-1] != p {
				out = append(out, p)
			}
			out = append(out, q)
		}
		along += d
	}
	return out
}

func mix(a, b scene.Point, t float64) scene.Point {
	return scene.Point{a[0] + t*(b[0]-a[0]), a[1] + t*(b[1]-a[1])}
}
