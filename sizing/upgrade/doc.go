// Package upgrade finds the changes of today's house that reach an airflow, alone
// and together, and what each part alone would have to drop.
package upgrade
