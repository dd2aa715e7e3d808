CREATE TABLE `owner_partings` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`machine_tag` text NOT NULL,
	`customer_id` text,
	`said_at` text NOT NULL,
	`taken_back_at` text,
	`settled_at` text,
	FOREIGN KEY (`machine_tag`) REFERENCES `machines`(`tag`) ON UPDATE no action ON DELETE no action,
	FOREIGN KEY (`customer_id`) REFERENCES `customers`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `owner_partings_by_machine` ON `owner_partings` (`machine_tag`);--> statement-breakpoint
CREATE TABLE `consents` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`customer_id` text NOT NULL,
	`kind` text NOT NULL,
	`standing` text NOT NULL,
	`at` text NOT NULL,
	`source` text NOT NULL,
	`wording` text NOT NULL,
	`language` text NOT NULL,
	FOREIGN KEY (`customer_id`) REFERENCES `customers`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `consents_by_customer` ON `consents` (`customer_id`);--> statement-breakpoint
CREATE TABLE `erase_requests` (
	`id` integer PRIMARY KEY AUTOINCREMENT NOT NULL,
	`customer_id` text NOT NULL,
	`asked_at` text NOT NULL,
	`source` text NOT NULL,
	`taken_back_at` text,
	`done_at` text,
	FOREIGN KEY (`customer_id`) REFERENCES `customers`(`id`) ON UPDATE no action ON DELETE no action
);
--> statement-breakpoint
CREATE INDEX `erase_requests_by_customer` ON `erase_requests` (`customer_id`);--> statement-breakpoint
ALTER TABLE `customers` ADD `erased_at` text;--> statement-breakpoint
-- A yes of the customers' table had neither its date nor its words. It is kept as what it was.
INSERT INTO `consents` (`customer_id`, `kind`, `standing`, `at`, `source`, `wording`, `language`) SELECT `id`, 'offers', 'given', strftime('%Y-%m-%dT%H:%M:%fZ', 'now'), 'import', 'wants_offers: yes', 'en' FROM `customers` WHERE `wants_offers` = 1;--> statement-breakpoint
CREATE TRIGGER `consents_only_added` BEFORE UPDATE ON `consents` BEGIN SELECT RAISE(ABORT, 'consents are only added to'); END;--> statement-breakpoint
CREATE TRIGGER `consents_never_deleted` BEFORE DELETE ON `consents` BEGIN SELECT RAISE(ABORT, 'consents are only added to'); END;
