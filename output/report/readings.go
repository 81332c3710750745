package report

import "strconv"

// readingColumns head the blank columns in which a maker writes readings.
var readingColumns = []string{"first", "second", "moved, by", "first", "second", "moved, by", "first", "second"}

// timedSwings are counted in one reading: a hand that errs by 0.15 s then errs
// by a third of a percent at 2.2 s a swing.
const timedSwings = 20

// timed is what a reading of a pendulum should be: of the wanted period where
// there is one, else of the predicted one.
func timed(p Pendulum) string {
	period := p.Period
	if p.Target.Given {
		period = p.Target.Value
	}
	return strconv.FormatFloat(timedSwings*period, 'f', 2, 64) + nbsp + "s"
}
