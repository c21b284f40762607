package model

import (
	"dropleg/engine/unit"
	"dropleg/internal/shop/catalog"
	"dropleg/internal/shop/job"
)

// systemOf is the set of units the job's people read; metric where none is stated.
func systemOf(j *job.Job) unit.System {
	for _, s := range unit.Systems() {
		if string(s) == j.Site.Units {
			return s
		}
	}
	return unit.Metric
}

// long is a length in words.
func (b *builder) long(x float64) string {
	return b.system.Listed(unit.Length(x))
}

// inch adds the unit to a nominal inch size: sizes like 1/2 and 1-1/4 are inches.
func inch(size string) string {
	for _, c := range size {
		if (c < '0' || c > '9') && c != '/' && c != '-' {
			return size
		}
	}
	if size == "" {
		return size
	}
	for _, c := range size {
		if c == '/' {
			return size + " in"
		}
	}
	if len(size) == 1 {
		return size + " in" // 1, 2, 3; two figures are millimetres
	}
	return size + " mm"
}

// partWords names a part for lists: "tee 3/4 in, branch".
func (b *builder) partWords(p place, size, leg string) string {
	words := p.kind.Words["en"]
	if words == "" {
		words = p.kind.Kind
	}
	if size != "" {
		words += " " + inch(size)
	}
	if leg != "" {
		words += ", " + leg
	}
	return words
}

// lineWords names a run: "main 3/4 in copper tube type L, 12.3 m".
func (b *builder) lineWords(r *job.Run, stock catalog.Stock, long float64) string {
	role := r.Role
	if role == "" {
		role = "line"
	}
	return role + " " + inch(r.Size) + " " + stock.Words + ", " + b.long(long)
}

// hoseWords names a hose: "hose 1/4 in, 10 m".
func (b *builder) hoseWords(h *job.Hose, row catalog.Hose) string {
	word := "hose "
	if h.Reel {
		word = "reel, hose "
	}
	return word + inch(row.Size) + ", " + b.long(float64(h.Length))
}

// couplerWords names a coupler by its row.
func couplerWords(row catalog.Coupler) string {
	if row.Words != "" {
		return "coupler, " + row.Words
	}
	return "coupler " + row.Coupler
}
