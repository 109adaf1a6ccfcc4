package cp

import "context"

// Solve searches for the best solution of a valid problem. When the context or a limit ends it early, the best
// solution so far comes back with the bounds proved so far. It panics on a problem that Validate refuses.
func Solve(ctx context.Context, p *Problem, lim Limits) Result {
	if err := p.Validate(); err != nil {
		panic("cp: " + err.Error())
	}
	return Result{} // the kernel follows; until then every answer is Unknown
}
