// Package jar reads how high a dough or a culture stands in a jar from a row of
// pictures that a camera took of it by itself: one curve over hours, with how
// certain each point of it is.
//
//	Marks (three lines and two sides, on the first picture)
//	Row, Follow: for each picture, one at a time in memory and several at once in work
//	  Tracker.Look   → Strip: where the camera has moved, and what each small cell
//	                   between the sides looks like
//	Tracker.Trace    → Curve: one path through all strips
//
// It takes pixels and times and gives numbers. It opens no file, reads no clock and
// draws no random number. The steps and their sources:
//
//   - camera moves: phase correlation (Kuglin & Hines 1975, Proc. Int. Conf.
//     Cybernetics and Society, 163), with its peak found between pixels by a bell through three,
//     and of two halves of the picture for what autofocus scales; then the picture is laid over
//     the first around the jar, by its slopes (Lucas & Kanade 1981, Proc. IJCAI, 674);
//   - light: so many times as bright as each colour has become beside the jar, at its left and
//     at its right, it has become within (the coefficients of von Kries 1902, in: MacAdam (ed.),
//     Sources of Color Science, 1970, from memory; between both sides on a straight line);
//   - surface: for each height the cost of holding all below for dough and all above
//     for what the first picture shows there, as a sum of two regions (Mumford & Shah
//     1989, Comm. Pure Appl. Math. 42:577, on a line), robust by Cauchy's loss
//     (Huber 1981, Robust Statistics);
//   - path: dynamic programming (Viterbi 1967, IEEE Trans. Inf. Theory 13:260), dough
//     rising slowly and falling faster; twice, the second time with what each cell was seen to
//     look like without dough not long before or after (Wren et al. 1997, IEEE Trans. Pattern
//     Anal. Mach. Intell. 19:780), such as with a film on it;
//   - what the dough itself did: its texture is laid over that of later pictures, stretched (normalised
//     correlation), so that a film it leaves on the glass is not held for its surface; only where
//     texture and surface are seen to move together (flow.go);
//   - parts of a row: as many rows of dough as there would have to be (moments are preserved;
//     Tabatabai & Mitchell 1984, IEEE Trans. Pattern Anal. Mach. Intell. 6:188);
//   - uncertainty: the standard deviation of the height given all pictures, by the
//     forward-backward recursion over the same path (Rabiner 1989, Proc. IEEE 77:257).
package jar
