package network

import (
	"fmt"
	"math/rand/v2"

	"dropleg/engine/element"
)

// The gas of the reference files: 20 °C, ideal, Sutherland's viscosity.
var shopAir = element.Gas{Temperature: 293.15, R: 287.055, Z: 1, Viscosity: 1.813322120356043e-05}

func ptr[T any](v T) *T { return &v }

func pipeSpec(rnd *rand.Rand, id, from, to string, bores []float64) LinkSpec {
	return LinkSpec{
		ID: id, From: from, To: to, Kind: "pipe", Length: ptr(1 + 9*rnd.Float64()),
		Bore: ptr(bores[rnd.IntN(len(bores))]), Roughness: ptr([]float64{1.5e-6, 4.5e-5}[rnd.IntN(2)]), K: ptr(4 * rnd.Float64()),
	}
}

func shopGas() GasSpec {
	return GasSpec{
		Temperature: shopAir.Temperature, GasConstant: ptr(shopAir.R),
		Compressibility: ptr(1.0), Viscosity: ptr(shopAir.Viscosity),
	}
}

// treeDocument is a tree of n pipes, each hung on one of the few before it,
// with tools at a quarter of its nodes: long mains with drops.
func treeDocument(n int, seed uint64) *Document {
	rnd := rand.New(rand.NewPCG(seed, 1))
	d := &Document{Title: fmt.Sprintf("tree of %d", n), Gas: shopGas()}
	d.Nodes = append(d.Nodes, NodeSpec{ID: "s", Pressure: ptr(801325.0)})
	for i := 1; i <= n; i++ {
		v := NodeSpec{ID: fmt.Sprintf("n%d", i)}
		if i%4 == 0 {
			v.Demand = ptr(0.002 + 0.008*rnd.Float64())
		}
		d.Nodes = append(d.Nodes, v)
		// Parents spread over all before keep the tree shallow, as shops are.
		up := max(0, i-1-rnd.IntN(max(1, min(i, 1+i/2))))
		bore := 0.0209 * (1 + 0.35*float64(n)/float64(n+40)*float64(n-i)/float64(n))
		if n > 100 { // a big tree carries more near its source
			bore = 0.3 / (1 + 9*float64(i)/float64(n))
		}
		d.Links = append(d.Links, pipeSpec(rnd, fmt.Sprintf("l%d", i), d.Nodes[up].ID, v.ID, []float64{bore}))
	}
	return d
}

// gridDocument is side × side nodes joined to their neighbours, fed at one
// corner, with a demand at every fourth node.
func gridDocument(side int, seed uint64) *Document {
	rnd := rand.New(rand.NewPCG(seed, 2))
	d := &Document{Title: fmt.Sprintf("grid of %d", side), Gas: shopGas()}
	bores := []float64{0.0209, 0.0266, 0.0351}
	if side > 20 {
		bores = []float64{0.0525, 0.0627, 0.0779}
	}
	for i := range side * side {
		v := NodeSpec{ID: fmt.Sprintf("n%d", i)}
		switch {
		case i == 0:
			v.Pressure = ptr(801325.0)
		case i%4 == 3:
			v.Demand = ptr((0.5 + rnd.Float64()) * 0.4 / float64(side*side))
		}
		d.Nodes = append(d.Nodes, v)
	}
	for i := range side * side {
		if i%side+1 < side {
			d.Links = append(d.Links, pipeSpec(rnd, fmt.Sprintf("h%d", i), d.Nodes[i].ID, d.Nodes[i+1].ID, bores))
		}
		if i+side < side*side {
			d.Links = append(d.Links, pipeSpec(rnd, fmt.Sprintf("v%d", i), d.Nodes[i].ID, d.Nodes[i+side].ID, bores))
		}
	}
	return d
}
