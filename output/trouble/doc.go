// Package trouble says what a builder sees when a drawing disappoints, where it
// comes from and what sets it right.
//
// It reads objective.Troubles of one design, and the Workspace for periods and
// names; it makes pictures through package drawing and sentences in the maker's
// units. Package report puts them on the design's sheet, `evenswing sheets`
// beside the other files. It works out no mechanics and knows no page.
package trouble
