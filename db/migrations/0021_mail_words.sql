ALTER TABLE `jobs` ADD `miss_checked` text;--> statement-breakpoint
ALTER TABLE `jobs` ADD `miss_choices` text;--> statement-breakpoint
ALTER TABLE `mails` ADD `notice` text;--> statement-breakpoint
ALTER TABLE `mails` ADD `edits` text;