package pages

// EditCompany shows the company's profile, as its button does.
func (s *Screen) EditCompany() { s.editCompany() }
