package calibrate

import "math"

// factor is Cholesky's lower factor of a symmetric matrix; nil where it has none.
func factor(a [][]float64) [][]float64 {
	l := make([][]float64, len(a))
	for i := range a {
		l[i] = make([]float64, i+1)
		for k := range i + 1 {
			x := a[i][k]
			for t := range k {
				x -= l[i][t] * l[k][t]
			}
			switch {
			case k < i:
				l[i][k] = x / l[k][k]
			case !(x > 0):
				return nil
			default:
				l[i][i] = math.Sqrt(x)
			}
		}
	}
	return l
}

// forward solves L y = b.
func forward(l [][]float64, b []float64) []float64 {
	y := make([]float64, len(b))
	for i := range b {
		y[i] = b[i]
		for k := range i {
			y[i] -= l[i][k] * y[k]
		}
		y[i] /= l[i][i]
	}
	return y
}

// backward solves Lᵀ x = y.
func backward(l [][]float64, y []float64) []float64 {
	x := make([]float64, len(y))
	for i := len(y) - 1; i >= 0; i-- {
		x[i] = y[i]
		for k := i + 1; k < len(y); k++ {
			x[i] -= l[k][i] * x[k]
		}
		x[i] /= l[i][i]
	}
	return x
}

func dot(a, b []float64) float64 {
	sum := 0.0
	for i, x := range a {
		sum += x * b[i]
	}
	return sum
}
