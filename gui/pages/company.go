package pages

import (
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"returnbench/gui/lang"
	"returnbench/plots/report/firm"
	"returnbench/sizing/message"
)

// The examples beside the fields.
var usualTax, usualDays = message.Fixed(8.25, 2), 30

// company is the form of what stands at the head of every paper.
type company struct {
	name, license, phone, mail, address *widget.Entry
	logo, tax, days, terms              *widget.Entry
	said                                *widget.Label
	done                                func() // leaves the form
	object                              fyne.CanvasObject
}

func newCompany(keep func(firm.Profile) error, done func()) *company {
	c := &company{said: widget.NewLabel(""), done: done}
	c.said.Wrapping = fyne.TextWrapWord
	line := func(hint message.ID, args ...any) *widget.Entry {
		e := widget.NewEntry()
		e.SetPlaceHolder(lang.T(hint, args...))
		return e
	}
	c.name, c.license, c.phone, c.mail, c.address = line(""), line(""), line(""), line(""), line("")
	c.logo, c.tax, c.days = line("PNG, JPEG or SVG file, beside the profile or with its folder"), line("such as {number}", "number", usualTax), line("such as {number}", "number", usualDays)
	c.terms = widget.NewMultiLineEntry()
	c.terms.Wrapping = fyne.TextWrapWord
	form := container.NewVBox(bold("Your company, on every paper"))
	for _, f := range []struct {
		label message.ID
		field fyne.CanvasObject
	}{
		{"Name", c.name}, {"License", c.license}, {"Phone", c.phone}, {"Mail", c.mail}, {"Address", c.address},
		{"Logo", c.logo}, {"Tax, %", c.tax}, {"Proposals hold for, days", c.days}, {"Terms", c.terms},
	} {
		form.Add(widget.NewLabel(lang.T(f.label)))
		form.Add(f.field)
	}
	save := widget.NewButton(lang.T("Save"), func() {
		p, err := c.profile()
		if err == nil {
			err = keep(p)
		}
		if err != nil {
			c.said.SetText(message.Fault(lang.Locale(), err))
			return
		}
		done()
	})
	save.Importance = widget.HighImportance
	form.Add(c.said)
	form.Add(container.NewHBox(save, widget.NewButton(lang.T("Cancel"), done)))
	c.object = container.NewVScroll(form)
	return c
}

// fill shows a profile.
func (c *company) fill(p firm.Profile, fault error) {
	for e, text := range map[*widget.Entry]string{
		c.name: p.Name, c.license: p.License, c.phone: p.Phone, c.mail: p.Mail, c.address: p.Address, c.logo: p.Logo, c.terms: p.Terms,
		c.tax: "", c.days: "",
	} {
		e.SetText(text)
	}
	if p.TaxRate > 0 {
		c.tax.SetText(lang.Locale().Mark(strconv.FormatFloat(100*p.TaxRate, 'g', 6, 64)))
	}
	if p.ValidDays > 0 {
		c.days.SetText(strconv.Itoa(p.ValidDays))
	}
	c.said.SetText("")
	if fault != nil {
		c.said.SetText(message.Fault(lang.Locale(), fault))
	}
}

// profile reads the form.
func (c *company) profile() (firm.Profile, error) {
	p := firm.Profile{Name: c.name.Text, License: c.license.Text, Phone: c.phone.Text, Mail: c.mail.Text, Address: c.address.Text, Logo: c.logo.Text, Terms: c.terms.Text}
	if text := strings.TrimSpace(c.tax.Text); text != "" {
		number := strings.TrimSpace(strings.TrimSuffix(text, "%"))
		if lang.Locale().Comma {
			number = strings.Replace(number, ",", ".", 1)
		}
		v, err := strconv.ParseFloat(number, 64)
		if err != nil {
			return p, message.Errorf("tax: given {given}; want a number of percent, such as {number}", "given", strconv.Quote(text), "number", usualTax)
		}
		p.TaxRate = v / 100
	}
	if text := strings.TrimSpace(c.days.Text); text != "" {
		n, err := strconv.Atoi(text)
		if err != nil {
			return p, message.Errorf("days: given {given}; want a whole number, such as {number}", "given", strconv.Quote(text), "number", usualDays)
		}
		p.ValidDays = n
	}
	return p, nil
}
