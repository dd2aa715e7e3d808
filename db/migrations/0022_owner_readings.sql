CREATE TABLE `owner_readings` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`machine_tag` text NOT NULL,
	`customer_id` text,
	`at` text NOT NULL,
	`firmware_table` text NOT NULL,
	`taken_at` text,
	`aside_at` text,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`customer_id`) REFERENCES `customers`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `owner_readings_by_machine` ON `owner_readings` (`machine_tag`);