CREATE TABLE `readings` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`machine_tag` text NOT NULL,
	`at` text NOT NULL,
	`firmware_table` text NOT NULL,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `readings_by_machine` ON `readings` (`machine_tag`);