package model

import (
	"math"

	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
)

// shelf asks the catalogue what the model needs of it, and keeps what is asked
// for again and again.
type shelf struct {
	*catalog.Catalog
	lines   map[[2]string]lineRow // by stock and size
	corners []corner              // fittings that make a corner in stick stock
}

type lineRow struct {
	stock catalog.Stock
	size  catalog.Size
	ok    bool
}

// corner is what a fitting turns the air by and loses.
type corner struct {
	degrees float64
	law     catalog.LawRow
}

func newShelf(cat *catalog.Catalog) shelf {
	s := shelf{Catalog: cat, lines: map[[2]string]lineRow{}}
	for _, k := range cat.Kinds() {
		if k.Has(catalog.Turns) && k.InLine() && k.Law.Name == "minor" {
			s.corners = append(s.corners, corner{turn(k), k.Law})
		}
	}
	return s
}

// line finds a stock and a size of it.
func (s shelf) line(stock, size string) (catalog.Stock, catalog.Size, bool) {
	row, asked := s.lines[[2]string{stock, size}]
	if !asked {
		if row.stock, row.ok = s.Stock(stock); row.ok {
			row.size, row.ok = row.stock.Size(size)
		}
		s.lines[[2]string{stock, size}] = row
	}
	return row.stock, row.size, row.ok
}

// nominal is the stock by whose bores a size counts where no line tells more:
// the handbook's loss table stands on the same pipe.
const nominal = "steel-sch40"

// bore is the bore that a size stands for: in the stock at hand, else as
// nominal pipe; 0 where neither knows it.
func (s shelf) bore(stock, size string) float64 {
	if size == "" {
		return 0
	}
	if _, sz, ok := s.line(stock, size); ok {
		return float64(sz.Bore)
	}
	_, sz, _ := s.line(nominal, size)
	return float64(sz.Bore)
}

// insert is the share of the bore that fittings pushed into the line leave;
// nil where they go over it.
func (s shelf) insert(stock catalog.Stock) *catalog.Span { return stock.InsertBore }

// anyElbow is what a standard elbow costs in bores, should the catalogue hold none.
const anyElbow = 30.0

// elbow is the law of the fitting that makes a corner in stick stock: of all
// that turn from line to line, the one whose ports stand nearest to the angle;
// of equals the one with the greater loss, for corners are made with what the
// shop has.
func (s shelf) elbow(degrees float64) catalog.LawRow {
	best, off := catalog.LawRow{}, math.Inf(1)
	for _, c := range s.corners {
		miss := math.Abs(c.degrees - degrees)
		if miss < off-1 || miss < off+1 && value(c.law.LeOverD) > value(best.LeOverD) {
			best, off = c.law, miss
		}
	}
	if best.Name == "" {
		le := anyElbow * degrees / 90
		best = catalog.LawRow{Name: "minor", LeOverD: &le, Ref: custom}
	}
	return best
}

// turn is the angle by which a part with two ports turns the air, degrees.
func turn(k catalog.Kind) float64 {
	a, b := k.Ports[0].Toward, k.Ports[1].Toward
	dot := a[0]*b[0] + a[1]*b[1] + a[2]*b[2]
	norm := math.Sqrt((a[0]*a[0] + a[1]*a[1] + a[2]*a[2]) * (b[0]*b[0] + b[1]*b[1] + b[2]*b[2]))
	if norm == 0 {
		return 0
	}
	return 180 - math.Acos(math.Max(-1, math.Min(1, dot/norm)))*180/math.Pi
}

func value(x *float64) float64 {
	if x == nil {
		return 0
	}
	return *x
}

// turbulent is fT of a bore.
func (b *builder) turbulent(bore float64) float64 {
	ft, _ := b.shelf.FT(unit.Length(bore))
	return ft
}

// anyCoupler is a usual coupler of a body size: the first row of that body,
// else the first there is.
func (s shelf) anyCoupler(size string) (catalog.Coupler, bool) {
	rows := s.Couplers()
	for _, r := range rows {
		if r.Body == size {
			return r, true
		}
	}
	if len(rows) == 0 {
		return catalog.Coupler{}, false
	}
	return rows[0], true
}

// treat finds the row of a treatment part: by its item, else the class row of
// its kind and size, else the largest class row of its kind, since the part was
// likely chosen big enough. The zero row where there is none.
func (s shelf) treat(item, kind, size string) catalog.Treat {
	if r, ok := s.Treat(item); ok {
		return r
	}
	var best catalog.Treat
	for _, r := range s.Treatment() {
		if r.Kind != kind {
			continue
		}
		if size != "" && r.Size == size {
			return r
		}
		if best.Item == "" || r.RatedFlow > best.RatedFlow {
			best = r
		}
	}
	return best
}
