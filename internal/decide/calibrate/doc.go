// Package calibrate sets roughness, leak and the state of filters, and nothing else, by the
// readings of a commissioning: what the network would have to be so that it shows what the
// gauges showed.
//
// Main type: Answer, by Of. In: a study and readings (of gauges with the receiver's, of
// pumping up and falling, of a compressor's on and off). Out: each figure with its range and
// whether the readings tell it at all, what they show beside what is computed before and
// after, and an edit of the job. Method: least squares weighed by what is not known, with a
// prior for each figure (Gauss and Newton's steps on the logarithms; the maximum of the
// posterior with its curvature), where couplers, fittings, tools, plates and gauges are not
// adjusted but carried along by the network's sensitivities. Sources: textbooks on inverse
// problems, e.g. Tarantola 2005, ch. 3 (recalled); the widths of priors are common practice,
// no source. It looks for no fault: that is package find.
package calibrate
