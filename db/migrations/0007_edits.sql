CREATE TABLE `edits` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`about` text NOT NULL,
	`ref` text NOT NULL,
	`at` text NOT NULL,
	`was` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `edits_by_ref` ON `edits` (`about`,`ref`);--> statement-breakpoint
CREATE TABLE `sent_forms` (
	`mark` text PRIMARY KEY NOT NULL,
	`led_to` text NOT NULL,
	`at` text NOT NULL
);
--> statement-breakpoint
CREATE INDEX `sent_forms_by_date` ON `sent_forms` (`at`);