package find

import "math"

// unfit is the logarithm of a likelihood that nothing can make up for.
const unfit = -1e6

// logLikelihood is ln of the density of the differences d under a normal
// distribution of covariance c (row by row, lower triangle used; overwritten
// by its Cholesky factor, as d is by what is left of it).
func logLikelihood(c [][]float64, d []float64) float64 {
	sum := 0.0
	for i := range d {
		for k := range i {
			x := c[i][k]
			for t := range k {
				x -= c[i][t] * c[k][t]
			}
			c[i][k] = x / c[k][k]
			d[i] -= c[i][k] * d[k]
		}
		x := c[i][i]
		for t := range i {
			x -= c[i][t] * c[i][t]
		}
		if !(x > 0) {
			return unfit
		}
		c[i][i] = math.Sqrt(x)
		d[i] /= c[i][i]
		sum -= d[i]*d[i]/2 + math.Log(c[i][i]) + 0.5*math.Log(2*math.Pi)
	}
	return sum
}

// forward takes d through the inverse of a lower factor, as logLikelihood leaves it.
func forward(c [][]float64, d []float64) {
	for i := range d {
		for k := range i {
			d[i] -= c[i][k] * d[k]
		}
		d[i] /= c[i][i]
	}
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, x := range a {
		sum += x * b[i]
	}
	return sum
}

// logSum is ln Σ exp x.
func logSum(x []float64) float64 {
	most := math.Inf(-1)
	for _, v := range x {
		most = max(most, v)
	}
	if math.IsInf(most, -1) {
		return most
	}
	sum := 0.0
	for _, v := range x {
		sum += math.Exp(v - most)
	}
	return most + math.Log(sum)
}
